"""How far panels move at their clips, by hand from the metal's expansion: which clips, from which point, how much."""

import math

import numpy as np
import pytest

from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from

PER_DEGREE = {"aluminum": 12.9e-6, "copper": 9.8e-6, "zinc": 12.2e-6, "steel": 6.7e-6}
"""Growth of a part of the length for each degree Fahrenheit: copper CDA handbook table 1.1A, steel an article after
*The NRCA Roofing Manual* (2016), both pub; the others from memory."""


def gable(kind: str, fixed: str, width: float, rest: str = "") -> Layout:
    """Return a gable without overhang at its eaves, ``width`` feet wide, at 6 in 12."""
    return build(
        scene_from(
            f"""
title = "Gable"
[roof]
form = "gable"
length = "20'"
width = "{width}'"
pitch = "6/12"
overhang = {{ eave = 0 }}
[metal]
kind = "{kind}"
{rest}
[panels]
fixed = "{fixed}"
"""
        )
    )


def moved(layout: Layout) -> list[Finding]:
    return [found for found in check(layout) if found.rule == "clip-travel"]


def test_clips_by_hand() -> None:
    """One at each end of a seam and no two more than 24 in apart: so many alike gaps.

    The slope is 12 ft of run at 6 in 12, 144 x 1.118 = 161 in. A seam begins past the eave's lip, 1 in and what the
    lip is off the edge, by 1/8 in, and ends 1 in short of the ridge: 161 in and a little: 7 gaps of 23 in, 8 clips.
    """
    here = gable("steel", "eave", 24)
    run = here.run("front eave")
    assert run.section.lip is not None
    seam = 144 * math.sqrt(1.25) + run.section.lip[0] + 1 / 8 - 1
    clipped = [panel for panel in here.panels if panel.clips]
    assert len(clipped) == len(here.panels) - 2, "the last of each face has no seam that lies under"
    for panel in clipped:
        assert panel.clips == pytest.approx(np.linspace(0, seam, 8), abs=1e-6)


@pytest.mark.parametrize(("fixed", "share"), [("eave", 1.0), ("top", 1.0), ("middle", 0.5)])
@pytest.mark.parametrize("kind", ["aluminum", "copper", "zinc"])
def test_what_a_panel_moves_at_its_last_clip_by_hand(kind: str, fixed: str, share: float) -> None:
    """Over 160 degrees, from where it is fixed to the clip farthest from there; 13/16 in is let."""
    here = gable(kind, fixed, 90 / share)
    seam = float(np.linalg.norm(here.panels[1].seams[0][1] - here.panels[1].seams[0][0]))
    moves = seam * share * PER_DEGREE[kind] * 160
    found = moved(here)
    assert len(found) == (2 if moves > 13 / 16 else 0), "one for each face"
    for one in found:
        assert one.measured == pytest.approx(moves, rel=1e-3)


@pytest.mark.parametrize(("degrees", "says"), [(159.0, 0), (161.0, 2)])
def test_the_limit_is_where_the_arithmetic_has_it(degrees: float, says: int) -> None:
    """Copper, 13/16 in over 160 degrees: 0.8125 / (160 x 9.8e-6) = 518 in = 43 ft 2 in of seam."""
    seam = 0.8125 / (160 * 9.8e-6)
    lip = gable("copper", "eave", 24).run("front eave").section.lip
    assert lip is not None and seam == pytest.approx(518.2, abs=0.05)
    width = 2 * (seam + 1 - 1 / 8 - lip[0]) / math.sqrt(1.25) / 12
    here = gable("copper", "eave", width, f"design_heat = {degrees}")
    assert len(moved(here)) == says
