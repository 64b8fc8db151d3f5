"""Solids are closed, as heavy as their flat pattern, and clear of one another: checked with manifold3d and trimesh."""

from collections.abc import Iterator
from dataclasses import replace

import manifold3d
import numpy as np
import pytest
import trimesh
from solids import collisions, manifold
from zoo import NAMES, OTHERS, layout

from trimwright.model.sheet.sheet import Cut, Sheet
from trimwright.model.sheet.solid import formed, thicken

ALL = [*NAMES, *OTHERS]
SOUND = [name for name in ALL if name != "slip-shed"]
"""All but the scene with planted mistakes."""


@pytest.mark.parametrize("name", ALL)
def test_solids_are_watertight_and_face_outward(name: str) -> None:
    for part in layout(name).parts:
        mesh = trimesh.Trimesh(part.solid.vertices, part.solid.faces, process=False)
        assert mesh.is_watertight, part.mark
        assert mesh.is_winding_consistent, part.mark
        assert manifold(part.solid).status() == manifold3d.Error.NoError, part.mark
        assert mesh.volume > 0, part.mark


@pytest.mark.parametrize("name", ALL)
def test_no_triangle_of_a_side_is_turned_over(name: str) -> None:
    """Beside it, on the same side of the sheet, would lie one that looks the other way: no bend is as sharp.

    At a tip finer than the sheet is thick, corners may cross.
    """
    plan = layout(name)
    for solid in (*(part.solid for part in plan.parts), *(panel.solid for panel in plan.panels)):
        mesh = trimesh.Trimesh(solid.vertices, solid.faces, process=False)
        one, other = mesh.face_adjacency.T
        seen = np.minimum(mesh.area_faces[one], mesh.area_faces[other]) > 0.2
        same = seen & (solid.side[one] == solid.side[other]) & (solid.side[one] != 0)
        assert (mesh.face_adjacency_angles[same] < 3.1).all()


def changed(sheet: Sheet) -> Iterator[Sheet]:
    """The sheet with each thing otherwise that its form depends on."""
    broad = int(np.diff(sheet.section.v).argmax())
    middle = np.array([sum(sheet.extent) / 2, sheet.section.v[broad : broad + 2].mean()])
    hole = middle + 0.1 * np.array([[0.0, 0.0], [1.0, 0.0], [0.5, 1.0]])
    yield replace(sheet, low=Cut(sheet.low.line - np.array([1.0, 0.0])))
    yield replace(sheet, high=Cut(sheet.high.line + np.array([1.0, 0.0])))
    yield replace(sheet, holes=(*sheet.holes, hole))
    yield replace(sheet, section=replace(sheet.section, thickness=2 * sheet.section.thickness))
    yield replace(sheet, section=replace(sheet.section, points=sheet.section.points * [1.0, -1.0]))
    for tab in sheet.low.tabs[:1]:
        half = (tab.flap + tab.hinge.mean(axis=0)) / 2
        for other in (replace(tab, angle=tab.angle / 2), replace(tab, flap=half)):
            yield replace(sheet, low=Cut(sheet.low.line, (other, *sheet.low.tabs[1:])))


def test_a_form_that_is_kept_is_that_of_the_very_sheet() -> None:
    parts = sorted(layout("boat-shed").parts, key=lambda part: len(part.sheet.low.tabs))
    assert parts[-1].sheet.low.tabs
    for part in (parts[0], parts[-1]):
        for sheet in changed(part.sheet):
            formed.cache_clear()
            before = thicken(part.sheet, part.placement)
            kept = thicken(sheet, part.placement)
            assert (thicken(part.sheet, part.placement).vertices == before.vertices).all()
            formed.cache_clear()
            fresh = thicken(sheet, part.placement)
            assert np.array_equal(kept.vertices, fresh.vertices) and np.array_equal(kept.faces, fresh.faces)
            assert not np.array_equal(kept.vertices, before.vertices)


@pytest.mark.parametrize("name", ALL)
def test_volume_is_flat_area_times_thickness(name: str) -> None:
    for part in layout(name).parts:
        flat = part.sheet.area * part.run.section.thickness
        assert part.solid.volume == pytest.approx(flat, rel=1e-3), part.mark


@pytest.mark.parametrize("name", SOUND)
def test_no_two_pieces_pass_through_each_other(name: str) -> None:
    plan = layout(name)
    for one, other, depth in collisions(plan):
        assert depth <= plan.scene.metal.thickness / 2, (one, other, depth)


@pytest.mark.parametrize("name", SOUND)
def test_pieces_that_lap_touch(name: str) -> None:
    """The nearest metal of two pieces at a lap is no farther off than a sixteenth."""
    parts = {part.mark: part for part in layout(name).parts}
    for part in parts.values():
        end = part.ends.high
        if end.lap is not None:
            gap = manifold(part.solid).min_gap(manifold(parts[end.others[0]].solid), 1.0)
            assert gap <= 1 / 16, (part.mark, end.others)


def test_pilot_holes_go_through() -> None:
    from zoo import BOXED

    from trimwright.model.pipeline import build
    from trimwright.model.scene.read import scene_from

    drilled = build(scene_from(BOXED + '[screws]\npilot = "3/16 in"\n', "drilled.toml"))
    for part in drilled.parts:
        mesh = trimesh.Trimesh(part.solid.vertices, part.solid.faces, process=False)
        holes = sum(screw.mark == part.mark for screw in drilled.screws)
        assert mesh.is_watertight
        assert mesh.euler_number == 2 - 2 * holes
        assert part.solid.volume == pytest.approx(part.sheet.area * part.run.section.thickness, rel=1e-3)
