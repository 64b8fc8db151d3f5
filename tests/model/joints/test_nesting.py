"""Pieces nest on roofs of every form, from nearly flat to steep, wherever lengths start; checked with manifold3d."""

import itertools

import manifold3d
import numpy as np
import pytest

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
    plan = build(scene_from(scene(form, pitch, start), "nesting.toml"))
    boxes = [(part.solid.vertices.min(axis=0), part.solid.vertices.max(axis=0)) for part in plan.parts]
    solids = [
        manifold3d.Manifold(
            manifold3d.Mesh64(np.ascontiguousarray(part.solid.vertices), part.solid.faces.astype(np.uint64))
        )
        for part in plan.parts
    ]
    bad = []
    for i, j in itertools.combinations(range(len(solids)), 2):
        if (boxes[i][0] > boxes[j][1]).any() or (boxes[j][0] > boxes[i][1]).any():
            continue
        for lump in (solids[i] ^ solids[j]).decompose():
            depth = 2 * lump.volume() / lump.surface_area() if lump.volume() > 1e-9 else 0.0
            if depth > plan.scene.metal.thickness / 2:
                bad.append((plan.parts[i].mark, plan.parts[j].mark, depth))
    assert bad == []
