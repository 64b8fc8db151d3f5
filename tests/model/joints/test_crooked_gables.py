"""Gables out of square: every corner of the deck moved at random, the faces still plane and the eaves level."""

from typing import Any

import numpy as np
import pytest
from crooked import crooked
from sound import assert_sound

from trimwright.model import pipeline
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.moved import moved
from trimwright.model.scene.read import scene_of

HOUSES: list[tuple[int, dict[str, Any]]] = [
    (5, {"length": 300, "width": 200, "pitch": "7/12"}),
    (11, {"length": 340, "width": 180, "pitch": "12/12", "far_pitch": "4/12"}),
    (18, {"length": 401, "width": 194, "pitch": "5/12", "far_pitch": "10/12"}),
    (14, {"length": 280, "width": 230, "pitch": "9/12", "far_pitch": "12/12"}),
]


@pytest.mark.parametrize(("seed", "house"), HOUSES, ids=[str(seed) for seed, _ in HOUSES])
def test_three_quarters_of_an_inch_out_of_square_is_laid_out_clean(
    monkeypatch: pytest.MonkeyPatch, seed: int, house: dict[str, Any]
) -> None:
    """Against manifold3d and every rule; a rake's underlap goes less far where the gable leans it outward."""
    scene = scene_of({"title": "Crooked", "roof": {"form": "gable", "wall_height": 200, **house}})
    roof = build_roof(scene.roof)
    bent = moved(roof, crooked(roof, np.random.default_rng(seed), 0.75))
    monkeypatch.setattr(pipeline, "build_roof", lambda _: bent)
    layout = pipeline.build(scene)
    assert_sound(layout)
