"""The roof drawn into the photograph that it was placed on."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from trimwright.model.layout import Layout

from ..display.stage import stage_of
from ..render.on_photo import roof_over
from .photograph import mask_for, straightened
from .placed import Placed

Bytes = NDArray[np.uint8]


def before_and_after(placed: Placed, layout: Layout, folder: Path) -> tuple[Bytes, Bytes]:
    """Return the photograph as a straight lens would have taken it, and the same with the finished roof in it."""
    camera = placed.chosen.camera
    before = straightened(placed.photograph.pixels, camera)
    front = None
    if placed.spec.front is not None:
        mask = mask_for(folder / placed.spec.front, placed.photograph.size)
        front = straightened(mask[..., None], camera)[..., 0]
    after = roof_over(before, stage_of(layout), camera.eye, camera.turn, camera.focal, placed.spec.sun, front)
    return before, after
