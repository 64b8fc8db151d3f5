import math
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from trimwright.model.edge_kinds import rank
from trimwright.model.errors import GeometryError
from trimwright.model.roof.build import SHORTEST, build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.roof import GableSpec, HipSpec, RoofSpec, ShedSpec

SIZES: dict[str, Any] = {
    "length": 384,
    "width": 240,
    "pitch": "6/12",
    "wall_height": 108,
    "deck": 0.5,
    "overhang": {"eave": 12, "rake": 8, "high": 6},
}


def gable(**changes: Any) -> Roof:
    return build_roof(GableSpec(form="gable", **{**SIZES, **changes}))


def test_saltbox_by_hand() -> None:
    # The back eave is 24 in lower: the ridge, 6/12 on both sides, is 24 in nearer the front than the middle.
    roof = gable(far_wall_height=84)
    ridge = next(edge for edge in roof.edges if edge.kind == "ridge")
    back = next(edge for edge in roof.edges if edge.name == "back eave")
    assert ridge.start.tolist() == pytest.approx([-8, 96, 156])
    assert back.start[2] == pytest.approx(84 - 6)
    assert roof.walls[2][:, 2].max() == pytest.approx(84 - 0.5 * math.sqrt(1.25))


@pytest.mark.parametrize(("near", "far"), [(300, 6), (108, 300)], ids=["too low", "too high"])
def test_walls_too_unlike_for_a_ridge_are_refused(near: float, far: float) -> None:
    with pytest.raises(
        GeometryError, match=r"roof.far_wall_height: the two slopes do not meet over the house"
    ):
        gable(wall_height=near, far_wall_height=far)


def hip(**changes: Any) -> Roof:
    return build_roof(HipSpec(form="hip", **{**SIZES, **changes}))


def shed(**changes: Any) -> Roof:
    return build_roof(ShedSpec(form="shed", **{**SIZES, **changes}))


def ends(roof: Roof) -> dict[str, tuple[list[float], list[float]]]:
    return {edge.name: (edge.start.round(9).tolist(), edge.end.round(9).tolist()) for edge in roof.edges}


def test_gable_by_hand() -> None:
    # Half the deck's span is 120 + 12 in; eave 108 - 12/2 = 102 in, ridge 102 + 132/2 = 168 in.
    left, right, low, high = -8, 392, 102, 168
    assert ends(gable()) == {
        "front eave": ([left, -12, low], [right, -12, low]),
        "back eave": ([right, 252, low], [left, 252, low]),
        "right-end left rake": ([right, -12, low], [right, 120, high]),
        "right-end right rake": ([right, 252, low], [right, 120, high]),
        "left-end left rake": ([left, 252, low], [left, 120, high]),
        "left-end right rake": ([left, -12, low], [left, 120, high]),
        "ridge": ([left, 120, high], [right, 120, high]),
    }


def test_unequal_gable_by_hand() -> None:
    # Eaves at one height: the ridge divides 264 in as 8 : 6, 150 6/7 in from the front eave, 75 3/7 in up.
    roof = gable(far_pitch="8/12")
    ridge = next(edge for edge in roof.edges if edge.kind == "ridge")
    assert ridge.start.tolist() == pytest.approx([-8, -12 + 264 * 8 / 14, 102 + 264 * 8 / 14 / 2])
    assert ridge.dihedral == pytest.approx(math.pi - math.atan(6 / 12) - math.atan(8 / 12))
    assert [roof.faces[face].name for face in ridge.faces] == ["back", "front"]


def test_hip_by_hand() -> None:
    roof = hip()
    found = ends(roof)
    assert found["ridge"] == ([120, 120, 168], [264, 120, 168])
    assert found["front-left hip"] == ([-12, -12, 102], [120, 120, 168])
    assert found["back-right hip"] == ([396, 252, 102], [264, 120, 168])
    assert [edge.name for edge in roof.edges] == [
        "front eave",
        "right eave",
        "back eave",
        "left eave",
        "front-right hip",
        "back-right hip",
        "back-left hip",
        "front-left hip",
        "ridge",
    ]


def test_pyramid_has_no_ridge_and_its_hips_share_one_corner() -> None:
    roof = hip(length=240)
    assert len(roof.vertices) == 5
    hips = [edge for edge in roof.edges if edge.kind == "hip"]
    assert len(hips) == 4
    assert len({edge.vertices[1] for edge in hips}) == 1
    assert not [edge for edge in roof.edges if edge.kind == "ridge"]


def test_flat_ends_turn_the_ridge_across() -> None:
    roof = hip(end_pitch="2/12")
    ridge = next(edge for edge in roof.edges if edge.kind == "ridge")
    assert ridge.direction.tolist() == pytest.approx([0, 1, 0])
    assert [roof.faces[face].name for face in ridge.faces] == ["left", "right"]
    assert ridge.outward.tolist() == pytest.approx([1, 0, 0])


def test_shed_by_hand() -> None:
    roof = shed()
    assert ends(roof) == {
        "front eave": ([-8, -12, 102], [392, -12, 102]),
        "right-end left rake": ([392, -12, 102], [392, 246, 231]),
        "left-end right rake": ([-8, -12, 102], [-8, 246, 231]),
        "back high edge": ([392, 246, 231], [-8, 246, 231]),
    }
    hands = {edge.name: edge.hand for edge in roof.edges}
    assert hands["right-end left rake"] == "left"
    assert hands["left-end right rake"] == "right"


def test_walls_reach_the_underside_of_the_deck() -> None:
    roof = gable()
    front, right, back, left = roof.walls
    under = 0.5 / math.cos(math.atan(0.5))
    assert front[:, 2].max() == pytest.approx(108 - under)
    assert right[:, 2].max() == pytest.approx(168 - under)
    assert [wall[:, 2].min() for wall in roof.walls] == [0, 0, 0, 0]
    assert len(right) == len(left) == 5
    assert len(back) == 4


def test_walls_are_seen_counter_clockwise_from_outside() -> None:
    for wall, outward in zip(hip().walls, ([0, -1, 0], [1, 0, 0], [0, 1, 0], [-1, 0, 0]), strict=True):
        spokes = wall - wall[0]
        assert np.cross(spokes[1], spokes[2]) @ outward > 0


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"wall_height": 6}, r'eave comes out 9/16" below the ground.*Give more roof.wall_height'),
        ({"length": 243}, r'ridge comes out 3\.000" long.*make length and width equal'),
        (
            {"length": 240, "width": 240, "end_pitch": "6.1/12"},
            r'ridge comes out 4\.\d+" long.*pitch\.$',
        ),
    ],
)
def test_what_cannot_be_built_is_refused(changes: dict[str, Any], says: str) -> None:
    with pytest.raises(GeometryError, match=says):
        hip(**changes)


@pytest.mark.parametrize(
    ("pitch", "end_pitch", "least"),
    [
        pytest.param(
            6, 6, 4 + 12 / math.sqrt(5), id="at 48 degrees to the hips, each cut draws in 6 tan(48 / 2)"
        ),
        pytest.param(12, 6, 20, id="at 35 degrees, nearly in line"),
        pytest.param(24, 2, 30, id="at 10 degrees, almost straight on"),
    ],
)
def test_a_ridge_between_hips_is_long_enough_for_the_cuts_at_both_its_ends(
    pitch: int, end_pitch: int, least: float
) -> None:
    """Over eaves of W by L in the ridge is L - W pitch / end_pitch long; its hips run W / 2 across as they rise."""
    sizes = {"width": 60, "pitch": f"{pitch}/12", "end_pitch": f"{end_pitch}/12", "overhang": {"eave": 0}}
    shortest = 60 * pitch / end_pitch + least
    with pytest.raises(GeometryError, match="ridge comes out"):
        hip(length=shortest - 0.01, **sizes)
    ridge = next(edge for edge in hip(length=shortest + 0.01, **sizes).edges if edge.kind == "ridge")
    assert ridge.length == pytest.approx(least + 0.01)


lengths = st.floats(12, 2000)
pitches = st.floats(0.3, 80).map(lambda degrees: f"{degrees} deg")
overhangs = st.fixed_dictionaries({key: st.floats(0, 60) for key in ("eave", "rake", "high")})
common = {
    "length": lengths,
    "width": lengths,
    "pitch": pitches,
    "wall_height": st.floats(60, 600),
    "overhang": overhangs,
    "deck": st.floats(0.25, 4),
}
specs: st.SearchStrategy[RoofSpec] = st.one_of(
    st.builds(GableSpec, form=st.just("gable"), far_pitch=st.none() | pitches, **common),
    st.builds(HipSpec, form=st.just("hip"), end_pitch=st.none() | pitches, **common),
    st.builds(ShedSpec, form=st.just("shed"), **common),
)


def built(spec: RoofSpec) -> Roof:
    try:
        return build_roof(spec)
    except GeometryError as error:
        assert str(error).startswith("roof: ")
        assume(False)
        raise


@given(specs)
def test_faces_cover_the_plan_once(spec: RoofSpec) -> None:
    roof = built(spec)
    over = spec.overhang
    ends = over.eave if isinstance(spec, HipSpec) else over.rake
    back = over.high if isinstance(spec, ShedSpec) else over.eave
    plan = (spec.length + 2 * ends) * (spec.width + over.eave + back)
    assert sum(face.area * math.cos(face.slope) for face in roof.faces) == pytest.approx(plan)


@given(specs)
def test_edges_close_round_every_face(spec: RoofSpec) -> None:
    roof = built(spec)
    for index, face in enumerate(roof.faces):
        around = [edge for edge in roof.edges if index in edge.faces]
        assert len(around) == len(face.outline)
        assert sum(edge.length for edge in around) == pytest.approx(
            np.linalg.norm(np.roll(face.outline, -1, axis=0) - face.outline, axis=1).sum()
        )
    # Corners - edges + faces = 1 for a sheet without holes.
    assert len(roof.vertices) - len(roof.edges) + len(roof.faces) == 1


@given(specs)
def test_edges_keep_their_contract(spec: RoofSpec) -> None:
    roof = built(spec)
    assert len({edge.name for edge in roof.edges}) == len(roof.edges)
    assert [rank(edge.kind) for edge in roof.edges] == sorted(rank(edge.kind) for edge in roof.edges)
    for edge in roof.edges:
        assert edge.length >= SHORTEST
        assert (roof.vertices[list(edge.vertices)] == [edge.start, edge.end]).all()
        assert edge.outward @ edge.direction == pytest.approx(0, abs=1e-9)
        assert edge.end[2] >= edge.start[2] - 1e-6
        first = roof.faces[edge.faces[0]]
        middle = first.outline.mean(axis=0)
        assert (middle - edge.start) @ edge.outward < 0
        assert (edge.kind == "rake") == (edge.hand is not None)
        if len(edge.faces) == 1:
            assert edge.dihedral == math.pi
            assert edge.outward @ first.normal == pytest.approx(0, abs=1e-9)
        else:
            second = roof.faces[edge.faces[1]]
            assert edge.dihedral == pytest.approx(math.pi - math.acos(first.normal @ second.normal), abs=1e-6)
            assert edge.outward[2] == pytest.approx(0, abs=1e-9)
            assert np.cross(edge.direction, [0, 0, 1]) @ edge.outward > 0


@given(specs)
def test_the_front_slope_passes_through_the_top_of_the_front_wall(spec: RoofSpec) -> None:
    front = next(face for face in built(spec).faces if face.name == "front")
    assert (np.array([0, 0, spec.wall_height]) - front.outline[0]) @ front.normal == pytest.approx(
        0, abs=1e-6
    )


@given(specs, st.floats(1.5, 4))
def test_doubling_lengths_doubles_the_edges(spec: RoofSpec, factor: float) -> None:
    roof = built(spec)
    sizes = {key: factor * getattr(spec, key) for key in ("length", "width", "wall_height", "deck")}
    over = spec.overhang.model_copy(
        update={key: factor * getattr(spec.overhang, key) for key in ("eave", "rake", "high")}
    )
    again = spec.model_copy(update={**sizes, "overhang": over})
    big = build_roof(again)
    assert [edge.name for edge in big.edges] == [edge.name for edge in roof.edges]
    assert [edge.length for edge in big.edges] == pytest.approx([edge.length * factor for edge in roof.edges])
    assert [edge.dihedral for edge in big.edges] == pytest.approx([edge.dihedral for edge in roof.edges])
