"""Hidden parts, on sections simple enough to say by hand what is seen."""

import math

import numpy as np
import pytest
import shapely
from pytest import approx
from zoo import NAMES, layout

from trimwright.viewer.drawings.ink.drawing import Area
from trimwright.viewer.drawings.piece.formed import WorkLine, eye, form, look, placed
from trimwright.viewer.drawings.piece.hidden_lines import facets_of, seen, sorted_by_sight

LAYOUT = layout("boat-shed")
EAVE = next(part for part in LAYOUT.parts if part.mark == "E1-2")
RAKE = next(part for part in LAYOUT.parts if part.mark == "R1-1")
AHEAD = eye(False, 0.0, 0.0)


def test_an_eye_is_a_right_handed_frame_seen_from_the_piece_s_outside() -> None:
    for mirrored in (False, True):
        for aside, height in ((0.0, 0.0), (0.6, 0.4), (-0.5, -0.7)):
            seen_from = eye(mirrored, aside, height)
            frame = np.stack([seen_from.right, seen_from.up, seen_from.toward])
            assert frame @ frame.T == approx(np.eye(3), abs=1e-12)
            # (u, out, up) of a level or left-hand piece is a left-handed frame, of a right-hand one right-handed.
            assert np.linalg.det(frame) == approx(1.0 if mirrored else -1.0)
    assert eye(False, 0.0, 0.0).right == approx([1, 0, 0])
    assert eye(True, 0.0, 0.0).right == approx([-1, 0, 0])
    assert eye(False, 0.6, 0.0).toward[0] < 0, "the eye that goes to the left sees the low end"


def test_the_frame_is_that_of_the_roof() -> None:
    """What is drawn is the piece, not its mirror image: the eye's frame is right-handed in the scene."""
    for name in NAMES:
        for part in layout(name).parts:
            mirrored = bool(np.linalg.det(part.placement[:3, :3]) > 0)
            seen_from = eye(mirrored, 0.3, 0.2)
            frame = np.stack([seen_from.right, seen_from.up, seen_from.toward]) @ part.placement[:3, :3].T
            assert np.linalg.det(frame) == approx(1.0)


def test_a_face_hides_what_lies_behind_it() -> None:
    """Seen square on, the eave trim shows its face and its kick; the top is edge-on, the return is hidden."""
    section = EAVE.run.section
    facets = facets_of(section, EAVE.sheet.pattern, (), AHEAD)
    sight = dict(zip((facet.strip for facet in facets), seen(facets), strict=True))
    face, top = section.strip_of("face"), section.strip_of("top")
    length = EAVE.length
    height = abs(section.points[face, 1] - section.points[face + 1, 1])
    nose = section.points[:, 1].max() - section.points[face, 1]
    assert sight[face].area == approx(length * height, rel=0.01), (
        f"nothing hangs in front; the nose is {nose} above"
    )
    assert sight[top].area < 0.02 * length * (section.v[top + 1] - section.v[top])


def test_visible_parts_never_overlap() -> None:
    for name, mark in (
        ("boat-shed", "R1-1"),
        ("boat-shed", "C1-1"),
        ("bakehouse", "H1-1"),
        ("oar-store", "T1-1"),
    ):
        part = next(part for part in layout(name).parts if part.mark == mark)
        flaps = [shapely.Polygon(np.concatenate([tab.hinge, tab.flap])) for tab in part.sheet.tabs]
        metal = part.sheet.pattern.difference(shapely.union_all(flaps))
        for height in (0.42, 0.75, -0.5):
            facets = facets_of(part.run.section, metal, part.sheet.tabs, eye(False, 0.6, height))
            parts = seen(facets)
            whole = shapely.union_all([facet.picture for facet in facets])
            assert sum(p.area for p in parts) == approx(whole.area, rel=2e-3)


def test_a_line_on_the_back_is_hidden() -> None:
    section = RAKE.run.section
    lip = section.strip_of("return")
    v = (section.v[lip] + section.v[lip + 1]) / 2
    low = RAKE.low
    line = WorkLine(np.array([[low + 4, v], [low + 12, v]]), 0.02, "#000000", (), "cut")
    top = WorkLine(np.array([[low + 4, 1.0], [low + 12, 1.0]]), 0.02, "#000000", (), "cut")
    above, below = eye(False, 0.3, 0.6), eye(False, 0.3, -0.6)
    assert look(form(section, RAKE.sheet.pattern, (), above), [line]).shown == approx(0.0, abs=0.01)
    assert look(form(section, RAKE.sheet.pattern, (), below), [line]).shown == approx(1.0)
    assert look(form(section, RAKE.sheet.pattern, (), above), [top]).shown == approx(1.0)
    assert look(form(section, RAKE.sheet.pattern, (), below), [top]).shown < 0.3


def test_a_line_half_behind_metal_is_parted_where_the_metal_ends() -> None:
    facets = facets_of(EAVE.run.section, EAVE.sheet.pattern, (), AHEAD)
    middle = float(EAVE.run.section.points[EAVE.run.section.strip_of("face") :, 1].mean())
    low = EAVE.low
    behind = np.array([[[low - 10, middle, -50.0], [low + 10, middle, -50.0]]])
    ((plain, hidden),) = sorted_by_sight(behind, facets)
    assert sum(math.dist(*part) for part in plain) == approx(10.0, abs=0.02)
    assert sum(math.dist(*part) for part in hidden) == approx(10.0, abs=0.02)


def test_a_view_is_drawn_to_scale_where_it_is_put() -> None:
    view = look(form(EAVE.run.section, EAVE.sheet.pattern, (), AHEAD))
    left, low, right, top = view.box
    items = placed(view, 0.25, (-0.25 * left, -0.25 * low))
    points = np.array([p for item in items if isinstance(item, Area) for ring in item.rings for p in ring])
    assert points.min(axis=0) == approx([0, 0], abs=1e-3)
    assert points.max(axis=0) == approx([0.25 * (right - left), 0.25 * (top - low)], abs=1e-3)
    assert right - left == approx(EAVE.length)


@pytest.mark.parametrize("painted", [True, False])
def test_the_painted_side_is_lighter_than_the_back(painted: bool) -> None:
    section = RAKE.run.section
    seen_from = eye(False, 0.0, 1.4 if painted else -1.4)
    view = look(form(section, RAKE.sheet.pattern, RAKE.ends.low.cut.tabs, seen_from))
    largest = max(
        (item for item in view.items if isinstance(item, Area)),
        key=lambda item: shapely.Polygon(item.rings[0]).area,
    )
    assert (int(largest.color[1:3], 16) > 210) == painted
