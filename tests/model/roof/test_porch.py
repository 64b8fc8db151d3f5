"""A porch: one slope carried down past its eave, which meets the porch's rakes at inside corners."""

import math
from typing import Any

import numpy as np
import pytest
from porches import porch_roof

from trimwright.model.checks.run import check
from trimwright.model.errors import TrimwrightError
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Edge, Roof
from trimwright.model.scene.read import scene_of
from trimwright.model.scene.schema import Scene

PORCH = {"side": 1, "from": "10'", "to": "26'", "depth": "6'"}


def scene(*porches: dict[str, Any], **roof: Any) -> Scene:
    given = [{**PORCH, **porch} for porch in porches or ({},)]
    return scene_of({"title": "Porch", "roof": porch_roof(**{"porch": given, **roof})})


def porched(*porches: dict[str, Any], **roof: Any) -> Roof:
    return build_roof(scene(*porches, **roof).roof)


def edge(roof: Roof, name: str) -> Edge:
    return next(edge for edge in roof.edges if edge.name == name)


def test_the_same_plane_goes_on_down_to_a_lower_eave() -> None:
    """By hand: 6 ft out at 6/12 is 3 ft down, and 6.708 ft along the slope."""
    roof = porched()
    eave, rake = edge(roof, "porch 1 eave"), edge(roof, "porch 1 left rake")
    assert eave.kind == "eave" and rake.kind == "rake"
    assert eave.length == pytest.approx(16 * 12)
    assert rake.length == pytest.approx(math.hypot(72, 36))
    assert edge(roof, "eave 1 1").start[2] - eave.start[2] == pytest.approx(36.0)
    assert len(roof.faces) == 2
    front = next(face for face in roof.faces if face.name == "side 1")
    assert front.outline @ front.normal == pytest.approx(front.outline[0] @ front.normal)


def test_the_eave_meets_the_porchs_rakes_at_inside_corners() -> None:
    roof = porched()
    for name, rake in (("eave 1 1", "porch 1 left rake"), ("eave 1 2", "porch 1 right rake")):
        shared = set(edge(roof, name).vertices) & set(edge(roof, rake).vertices)
        assert len(shared) == 1 and edge(roof, rake).vertices[1] in shared
    assert [edge(roof, name).length for name in ("eave 1 1", "eave 1 2")] == pytest.approx([176, 128])


def test_the_area_grows_by_that_of_the_porch() -> None:
    plain, roof = porched(porch=[]), porched()
    grown = sum(face.area for face in roof.faces) - sum(face.area for face in plain.faces)
    assert grown == pytest.approx(192 * math.hypot(72, 36))


def test_names_stay_when_a_size_changes() -> None:
    names = [edge.name for edge in porched().edges]
    for change in ({"from": "12'"}, {"to": "24'"}, {"depth": "8'"}):
        assert [edge.name for edge in porched(change).edges] == names


def test_a_porch_at_a_gables_corner_goes_on_under_its_overhang() -> None:
    """The gable's rake then comes down to the porch's eave in one."""
    roof = porched({"from": 0})
    assert edge(roof, "porch 1 eave").length == pytest.approx(26 * 12 + 8)
    assert not [one for one in roof.edges if one.name == "porch 1 right rake"]
    ends = {tuple(np.round(one.start[:2], 6)) for one in roof.edges if one.kind == "rake"}
    assert (-8.0, -84.0) in ends


@pytest.mark.parametrize(("gable", "begins", "ends"), [("4", 8, 0), ("2", 0, 8)])
def test_a_porch_as_long_as_its_side_goes_on_under_the_rake_of_a_gable_but_not_past_a_hip(
    gable: str, begins: int, ends: int
) -> None:
    """By hand: a rake overhangs the wall by 8 in; along a hip the porch is as wide as it is given."""
    roof = porched({"from": 0, "to": "40'"}, sides={gable: {"edge": "gable"}})
    eave = edge(roof, "porch 1 eave")
    assert sorted((eave.start[0], eave.end[0])) == pytest.approx([-begins, 480 + ends])


def test_two_porches_stand_on_one_side_and_one_on_another() -> None:
    roof = porched({"to": "16'"}, {"from": "24'", "to": "30'", "depth": "4'"}, {"side": 3})
    names = {edge.name for edge in roof.edges}
    assert {"porch 1 eave", "porch 2 eave", "porch 3 eave", "eave 1 3", "eave 3 2"} <= names


def test_a_cross_gable_may_have_one() -> None:
    house = {"form": "cross gable", "length": "40'", "width": "24'", "pitch": "6/12", "wall_height": "12'"}
    wing = {"at": "20'", "width": "12'", "length": "10'"}
    roof = scene_of(
        {"title": "House", "roof": {**house, "wing": wing, "porch": [{**PORCH, "from": "2'", "to": "16'"}]}}
    )
    assert "porch 1 eave" in {edge.name for edge in build_roof(roof.roof).edges}


def test_it_is_laid_out_clean() -> None:
    assert not [one for one in check(build(scene(pitch="5/12"))) if one.severity != "note"]


@pytest.mark.parametrize(
    ("porches", "roof", "says"),
    [
        ([{"side": 9}], {}, "roof.porch no. 1.side: there is no side 9; the sides are numbered 1 to 4"),
        ([{"side": 2}], {}, "roof.porch no. 1.side: side 2 is a gable, which has no eave to carry down"),
        ([{"from": "26'", "to": "10'"}], {}, "roof.porch no. 1.to: it goes from 26' 0\" to 10' 0\""),
        ([{"to": "50'"}], {}, "within the side, which is 40' 0\" long"),
        ([{"side": 3, "to": "50'"}], {}, "within the side, which is 40' 0\" long"),
        (
            [{}, {"from": "20'", "to": "30'"}],
            {},
            "roof.porch no. 2: the porch runs into another part of the roof",
        ),
        ([{"depth": "40'"}], {}, "roof.porch no. 1.depth: the porch comes out"),
        (
            [{"from": "1 in"}],
            {"sides": {}, "overhang": {"eave": 0}},
            'roof.porch no. 1.from: there is less than 6" of eave before the porch; begin it at 6" or farther along',
        ),
        (
            [{"to": "39' 8 in"}],
            {"sides": {}, "overhang": {"eave": 0}},
            'roof.porch no. 1.to: there is less than 6" of eave beyond the porch; end it at 39\' 6" or sooner',
        ),
        (
            [{"side": 3, "from": "1'", "to": "10'"}],
            {"outline": [[0, 0], [320, 0], [320, 96], [480, 96], [480, 384], [0, 384]], "sides": {}},
            'roof.porch no. 1.from: there is less than 6" of eave before the porch; begin it at 1\' 6"',
        ),
        ([{"deep": "4'"}], {}, "roof.porch no. 1.deep: no such key"),
    ],
)
def test_a_porch_that_cannot_be_is_refused_with_its_place(
    porches: list[dict[str, Any]], roof: dict[str, Any], says: str
) -> None:
    with pytest.raises(TrimwrightError) as caught:
        porched(*porches, **roof)
    assert says in str(caught.value)
