"""Pieces nest on roofs of every form, from nearly flat to steep, wherever lengths start; checked with manifold3d."""

import pytest
from solids import depths

from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from

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
