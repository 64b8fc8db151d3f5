"""Pieces nest on roofs of every form, from nearly flat to steep, wherever lengths start; checked with manifold3d."""

import math
from dataclasses import replace

import numpy as np
import pytest
from ordinary_outlines import ordinary_outline
from solids import depths

from trimwright.model.joints.lap import most_sheets
from trimwright.model.metals import METALS
from trimwright.model.pipeline import build
from trimwright.model.profiles.section import bend_section
from trimwright.model.scene.read import scene_from, scene_of
from trimwright.model.scene.schema import LegSpec, ProfileSpec

FORMS = ("gable", "hip", "shed")
PITCHES = ("1/12", "4/12", "9/12", "18/12")
STARTS = ("low", "high", "centered", "even")


def scene(form: str, pitch: str, start: str) -> str:
    trims = "".join(
        f'[trim.{kind}]\nstart = "{start}"\n' for kind in ("eave", "rake", "ridge", "hip", "high")
    )
    return (
        f'title = "Nesting"\n[roof]\nform = "{form}"\nlength = "30\'"\nwidth = "21\'"\n'
        f'pitch = "{pitch}"\nwall_height = "40\'"\n{trims}'
    )


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize(("pitch", "start"), [*zip(PITCHES, STARTS, strict=True), ("12/12", "low")])
def test_nothing_passes_through_anything(form: str, pitch: str, start: str) -> None:
    assert depths(build(scene_from(scene(form, pitch, start), "nesting.toml"))) == []


@pytest.mark.parametrize(
    ("nesting", "sheets"),
    [((0.01, 0.02), 3.0), ((0.03, 0.02), 2.0), ((0.1, 0.02), 3.0), ((0.1, 0.1), math.inf)],
    ids=["the hem of the deck", "the hem of the face", "the hem of the face is cut away", "both are"],
)
def test_most_sheets_by_hand(nesting: tuple[float, float], sheets: float) -> None:
    """An angle of 90 degrees with a hem on each leg, both bent round 0.03 in: open by 0.06 in inside.

    What moves by (0.01, 0.02) in a sheet moves by 0.02 square to the leg on the deck and by 0.01 square to the face:
    the hems close round 0.06 / 0.02 = 3 sheets, and 0.06 / 0.01 = 6; within a tenth, bends being flat between few
    lines. A hem that not even one sheet fits in is cut away.
    """
    legs = (
        LegSpec(name="top hem", width=0.5, direction="deck", relieved=True),
        LegSpec(name="top", width=3.0, turn=180, fastened=True),
        LegSpec(name="face", width=3.0, turn=-90),
        LegSpec(name="hem", width=0.5, turn=180, relieved=True),
    )
    profile = ProfileSpec(legs=legs, edges=("eave",), anchor="face")
    section = bend_section("hemmed", profile, {"deck": 0.0}, METALS["steel"], 0.02, 0.03, 0.0, 0.0)
    assert most_sheets(replace(section, nesting=np.array(nesting))) == pytest.approx(sheets, rel=0.1)


def test_a_last_length_on_the_other_caps_of_its_corner_comes_down_to_its_lap() -> None:
    """A last length of 30 in would stand off the one under it by 3.18 sheets there; hems close round 3.12."""
    layout = build(scene_of(ordinary_outline(3031)))
    first, last = layout.parts_of("hip 4-5")
    frame, section = first.run.frame, first.run.section
    for u in (last.piece.start, first.piece.end):
        shift = np.linalg.solve(frame, (last.placement - first.placement) @ [u, 0.0, 0.0, 1.0])
        assert abs(shift[1:3] @ section.nesting) / (section.nesting @ section.nesting) < most_sheets(section)
