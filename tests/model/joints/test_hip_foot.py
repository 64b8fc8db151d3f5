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


@pytest.mark.parametrize(("pitch", "ends"), [("3/12", "3/12"), ("12/12", "12/12"), ("10/12", "5/12")])
def test_it_is_so_on_any_slope(pitch: str, ends: str) -> None:
    roof = {"form": "hip", "length": "56'", "width": "18'", "pitch": pitch, "end_pitch": ends}
    plan = build(scene_of({"title": "Hip", "roof": roof}))
    assert plan.panels and np.isfinite(plan.panels[0].solid.vertices).all()
    assert through(plan) == []
