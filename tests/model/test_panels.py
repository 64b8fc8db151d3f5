from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from trimwright.model.errors import GeometryError
from trimwright.model.geometry.polygon import area_vector
from trimwright.model.panels import (
    BARE,
    ENGAGED,
    HOOK,
    HOOK_DROP,
    NOSE,
    PAN_LIFT,
    ROUND_NOSE,
    Panel,
    lay_panels,
)
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Face, Roof
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.roof import GableSpec, HipSpec, RoofSpec, ShedSpec
from trimwright.model.scene.schema import PanelSpec

Array = NDArray[np.float64]
PAST = NOSE + ROUND_NOSE
SIZES: dict[str, Any] = {
    "length": 144,
    "width": 96,
    "pitch": "3/4",
    "overhang": {"eave": 0, "rake": 0, "high": 0},
}


def gable(**changes: Any) -> Roof:
    return build_roof(GableSpec(form="gable", **{**SIZES, **changes}))


def on(panels: tuple[Panel, ...], face: int) -> list[Panel]:
    return [panel for panel in panels if panel.face == face]


def height(points: Array, face: Face) -> Array:
    """Return how far points stand off a face, inches."""
    return np.asarray((points - face.outline[0]) @ face.normal)


def size(outline: Array) -> float:
    return float(np.linalg.norm(area_vector(outline)))


def test_panels_of_a_gable_by_hand() -> None:
    # Pitch 3 in 4 over a run of 48 in: 60 in from eave to ridge; 144 in take nine panels of 16 in.
    roof = gable()
    panels = lay_panels(roof, PanelSpec(cover=16, seam=1.5))
    assert [panel.name for panel in on(panels, 0)] == [f"front {n}" for n in range(1, 10)]
    assert [panel.width for panel in panels] == [pytest.approx(16)] * 18
    assert [panel.length for panel in panels] == [pytest.approx(60 + PAST - 1 + HOOK_DROP + HOOK)] * 18
    assert [len(panel.seams) for panel in on(panels, 0)] == [0] + [1] * 8
    assert [panel.seams[0][0, 0] for panel in on(panels, 0)[1:]] == pytest.approx(range(16, 144, 16))
    assert [panel.seams[0][0, 0] for panel in on(panels, 1)[1:]] == pytest.approx(range(128, 0, -16))
    assert [len(panel.hooks) for panel in on(panels, 0)] == [4] + [2] * 7 + [4]
    middle = panels[4]
    assert size(middle.outline) == pytest.approx(16 * (60 + PAST - 1))
    assert size(panels[0].outline) == pytest.approx((16 + PAST) * (60 + PAST - 1))
    assert [size(panel.closures[0]) for panel in panels] == [pytest.approx(16 * 1.5)] * 18


@pytest.mark.parametrize(
    ("offset", "widths"), [(0, [40, 40, 40, 24]), (10, [10, 40, 40, 40, 14]), (24, [24, 40, 40, 40])]
)
def test_offset_sets_the_first_seam_and_the_rest_is_ripped(offset: float, widths: list[float]) -> None:
    panels = lay_panels(gable(), PanelSpec(cover=40, offset=offset))
    assert [panel.width for panel in on(panels, 0)] == pytest.approx(widths)


def test_layers_stand_where_they_are_built() -> None:
    roof = gable()
    for panel in lay_panels(roof, PanelSpec(cover=16, seam=1.5)):
        face = roof.faces[panel.face]
        assert height(panel.outline, face) == pytest.approx(PAN_LIFT)
        for seam in panel.seams:
            assert height(seam, face) == pytest.approx(PAN_LIFT)
            assert seam[1, 2] > seam[0, 2]
        for down, under in zip(panel.hooks[::2], panel.hooks[1::2], strict=True):
            assert height(down, face) == pytest.approx([PAN_LIFT] * 2 + [PAN_LIFT - HOOK_DROP] * 2)
            assert height(under, face) == pytest.approx(PAN_LIFT - HOOK_DROP)
        for closure in panel.closures:
            assert height(closure, face) == pytest.approx([PAN_LIFT] * 2 + [PAN_LIFT + 1.5] * 2)


def test_turned_edges_are_mitered_where_noses_meet() -> None:
    roof = gable()
    first = lay_panels(roof, PanelSpec(cover=16))[0]
    eave, rake = first.hooks[1], first.hooks[3]
    assert size(eave) == pytest.approx((16 + PAST) * HOOK - HOOK**2 / 2)
    assert size(rake) == pytest.approx((60 + PAST - 1) * HOOK - HOOK**2 / 2)


def test_an_edge_without_a_nose_has_a_plain_end() -> None:
    roof = gable()
    panels = lay_panels(roof, PanelSpec(cover=16), noses={"front eave": 0.5})
    front, back = on(panels, 0)[4], on(panels, 1)[4]
    assert front.length == pytest.approx(60 + 0.5 + ROUND_NOSE - 1 + HOOK_DROP + HOOK)
    assert back.length == pytest.approx(60 + BARE - 1)
    assert len(front.hooks) == 2
    assert not back.hooks
    assert size(on(panels, 0)[0].outline) == pytest.approx((16 + BARE) * (60 + 0.5 + ROUND_NOSE - 1))


@pytest.mark.parametrize("pitch", [2, 3, 6, 12, 18])
def test_panels_hook_the_lip_and_not_the_kick(pitch: int) -> None:
    scene = scene_from(
        f'title = "Any"\n[roof]\nform = "gable"\nlength = 240\nwidth = 120\npitch = "{pitch}/12"\n',
        "any.toml",
    )
    plan = build(scene)
    for run in plan.runs:
        if run.trim not in ("eave", "rake"):
            continue
        # The lip is the fold before the return, 1 in past the face at the height of the return: by the pitch farther
        # out than past the deck's edge, because the face is plumb at the eave.
        lip = run.section.strip_of("return")
        tip = run.section.points[: lip + 1, 0].max() + run.section.thickness / 2
        out = run.edge.outward
        own = [panel for panel in plan.panels if panel.face == run.edge.faces[0]]
        past = max(((panel.outline - run.edge.start) @ out).max() for panel in own)
        assert past == pytest.approx(tip + ROUND_NOSE)
        under = [strip for panel in own for strip in panel.hooks[1::2]]
        reach = min(
            ((strip - run.edge.start) @ out).min()
            for strip in under
            if ((strip - run.edge.start) @ out).max() > 0
        )
        if run.trim == "eave":
            assert tip - reach >= ENGAGED - 1e-9


def test_hip_pans_stop_2_in_short_and_closures_stand_3_in_back() -> None:
    roof = build_roof(HipSpec(form="hip", **SIZES))
    hip = next(edge for edge in roof.edges if edge.name == "front-left hip")
    face = roof.faces[0]
    inward = np.cross(hip.direction, face.normal)
    inward *= np.sign(inward @ (face.outline.mean(axis=0) - hip.start))
    panels = on(lay_panels(roof, PanelSpec(cover=16)), 0)
    assert min(((panel.outline - hip.start) @ inward).min() for panel in panels) == pytest.approx(2)
    assert min(((c - hip.start) @ inward).min() for p in panels for c in p.closures) == pytest.approx(3)
    ridge = next(edge for edge in roof.edges if edge.kind == "ridge")
    eave = next(edge for edge in roof.edges if edge.name == "front eave")
    assert max(((p.outline - ridge.start) @ -eave.outward).max() for p in panels) == pytest.approx(-1)


sizes = st.floats(12, 600)
pitches = st.floats(0.3, 75).map(lambda degrees: f"{degrees} deg")
common: dict[str, Any] = {"length": sizes, "width": sizes, "pitch": pitches, "wall_height": st.just(600)}
roofs: st.SearchStrategy[RoofSpec] = st.one_of(
    st.builds(GableSpec, form=st.just("gable"), far_pitch=st.none() | pitches, **common),
    st.builds(HipSpec, form=st.just("hip"), end_pitch=st.none() | pitches, **common),
    st.builds(ShedSpec, form=st.just("shed"), **common),
)
panel_specs = st.floats(8, 40).flatmap(
    lambda cover: st.builds(PanelSpec, cover=st.just(cover), offset=st.floats(0, cover * 0.99))
)


def axes(face: Face) -> tuple[Array, Array]:
    """Return unit vectors to the right and up the slope, as seen looking up the slope."""
    up = np.array([0, 0, 1]) - face.normal[2] * face.normal
    up = up / np.linalg.norm(up)
    return np.cross(up, face.normal), up


def built(spec: RoofSpec) -> Roof:
    try:
        return build_roof(spec)
    except GeometryError:
        assume(False)
        raise


@settings(max_examples=60)
@given(roofs, panel_specs)
def test_panels_tile_every_face(spec: RoofSpec, panel_spec: PanelSpec) -> None:
    roof = built(spec)
    panels = lay_panels(roof, panel_spec)
    for index, face in enumerate(roof.faces):
        right, up = axes(face)
        laid = on(panels, index)
        assert [panel.name for panel in laid] == [f"{face.name} {n}" for n in range(1, len(laid) + 1)]
        ends = np.array([[(p.outline @ right).min(), (p.outline @ right).max()] for p in laid]).reshape(-1, 2)
        assert ends[1:, 0] == pytest.approx(ends[:-1, 1], abs=1e-6)
        assert (np.diff(ends)[1:-1] <= panel_spec.cover + 1e-6).all()
        for panel in laid:
            assert 0 < panel.width <= panel_spec.cover + 1e-6
            assert panel.length >= np.ptp(panel.outline @ up) - 1e-6
            assert area_vector(panel.outline) @ face.normal > 0


@settings(max_examples=60)
@given(roofs, panel_specs)
def test_pan_area_is_the_face_moved_by_noses_and_setbacks(spec: RoofSpec, panel_spec: PanelSpec) -> None:
    roof = built(spec)
    panels = lay_panels(roof, panel_spec)
    moves = {"eave": PAST, "rake": PAST, "ridge": -1.0, "high": -1.0, "hip": -2.0}
    for index, face in enumerate(roof.faces):
        right, up = axes(face)
        flat = shapely.Polygon(np.column_stack([face.outline @ right, face.outline @ up]))
        expected = flat.buffer(40, join_style="mitre", mitre_limit=100)
        for edge in (edge for edge in roof.edges if index in edge.faces):
            ends = np.array([[end @ right, end @ up] for end in (edge.start, edge.end)])
            along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
            out = np.array([along[1], -along[0]])
            out *= -np.sign(out @ (np.array(flat.centroid.coords[0]) - ends[0]))
            line = ends + out * moves[edge.kind] + np.outer([-5000, 5000], along)
            expected = expected.intersection(shapely.Polygon([*line, *(line[::-1] - 9000 * out)]))
        total = sum(size(panel.outline) for panel in on(panels, index))
        assert total == pytest.approx(expected.area, rel=1e-6, abs=1e-3)


@settings(max_examples=40)
@given(roofs, panel_specs)
def test_seams_stand_a_cover_apart_and_straight_up(spec: RoofSpec, panel_spec: PanelSpec) -> None:
    roof = built(spec)
    panels = lay_panels(roof, panel_spec)
    for index, face in enumerate(roof.faces):
        right, up = axes(face)
        seams = [seam for panel in on(panels, index) for seam in panel.seams]
        places = np.array([seam[0] @ right for seam in seams])
        assert np.diff(places) == pytest.approx(panel_spec.cover)
        for seam in seams:
            assert (seam[1] - seam[0]) @ right == pytest.approx(0, abs=1e-6)
            assert (seam[1] - seam[0]) @ up > 0
