"""Hip feet hang clear of the panels, whose seams and turned edges lean out over the eaves: checked with manifold3d."""

import numpy as np
import pytest
from solids import manifold
from zoo import layout

from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of


def through(plan: Layout) -> list[tuple[str, str]]:
    """Return the hip caps and panels that pass through each other anywhere."""
    found = []
    for part in (part for part in plan.parts if part.run.trim == "hip"):
        low, high = part.solid.vertices.min(axis=0), part.solid.vertices.max(axis=0)
        for panel in plan.panels:
            corners = panel.solid.vertices
            if (corners.min(axis=0) <= high).all() and (corners.max(axis=0) >= low).all():
                common = manifold(part.solid) ^ manifold(panel.solid)
                found += [(part.mark, panel.name)] if common.volume() > 1e-4 else []
    return found


@pytest.mark.parametrize("name", ["bakehouse", "harbor-office", "uneven-hip"])
def test_no_flap_goes_through_a_pan_or_a_seam(name: str) -> None:
    assert through(layout(name)) == []


@pytest.mark.parametrize(
    ("pitch", "ends"),
    [("3/12", "3/12"), ("12/12", "12/12"), ("10/12", "5/12"), ("3/12", "12/12"), ("17/12", "4/12")],
)
def test_it_is_so_on_any_slope(pitch: str, ends: str) -> None:
    roof = {"form": "hip", "length": "56'", "width": "18'", "pitch": pitch, "end_pitch": ends}
    plan = build(scene_of({"title": "Hip", "roof": roof}))
    assert plan.panels and np.isfinite(plan.panels[0].solid.vertices).all()
    assert through(plan) == []


@pytest.mark.parametrize(
    ("pitch", "ends", "flaps"),
    [("6/12", "6/12", 2), ("6/12", "8/12", 2), ("3/12", "12/12", 3), ("17/12", "4/12", 3)],
)
def test_it_ends_at_both_eaves_however_unlike_they_are(pitch: str, ends: str, flaps: int) -> None:
    """Nose 1 1/32 in, room to hook 1/4, a seam of 1 in that leans out, and metal: under 2 1/2 in.

    Two flaps on eaves that differ a little: up to an inch more, or there would be a third one.
    """
    roof = {"form": "hip", "length": "150'", "width": "18'", "pitch": pitch, "end_pitch": ends}
    plan = build(scene_of({"title": "Hip", "roof": roof}))
    eaves = [run for run in plan.runs if run.trim == "eave"]
    for part in (part for part in plan.parts if part.ends.low.kind.name == "hip foot"):
        assert len(part.sheet.low.tabs) == flaps
        out = [
            ((part.solid.vertices - eave.edge.start) @ (eave.edge.outward * [1, 1, 0])).max()
            / np.linalg.norm(eave.edge.outward[:2])
            for eave in eaves
            if set(eave.edge.faces) & set(part.run.edge.faces)
        ]
        assert max(out) < (2.5 if flaps == 3 or pitch == ends else 3.5)


def test_no_lip_stands_out_past_the_nose_that_it_meets() -> None:
    roof = {"form": "hip", "length": "60'", "width": "18'", "pitch": "3/12", "end_pitch": "12/12"}
    plan = build(scene_of({"title": "Hip", "roof": roof}))
    eaves = [run for run in plan.runs if run.trim == "eave"]
    for part in (part for part in plan.parts if part.run.trim == "eave"):
        for eave in eaves:
            out = (part.solid.vertices - eave.edge.start) @ (eave.edge.outward * [1, 1, 0])
            assert out.max() / np.linalg.norm(eave.edge.outward[:2]) < 1.125
