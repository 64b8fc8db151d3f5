"""The roof placed on a photograph: the cameras that fit, and the picture that each of them gives."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from trimwright.model.errors import Problem, SceneError
from trimwright.model.layout import Layout
from trimwright.model.message import counted
from trimwright.model.scene.photo import PhotoSpec

from ..display.stage import stage_of
from ..render.on_photo import roof_over
from .corners import tapped
from .photograph import Photograph, mask_for, read_photograph, straightened
from .solve import Solved, solve

Bytes = NDArray[np.uint8]


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """The roof on a photograph.

    Attributes:
        spec: What the scene says about the photograph.
        photograph: The photograph.
        solved: Every camera that fits.
        chosen: The one that is drawn from.
    """

    spec: PhotoSpec
    photograph: Photograph
    solved: Sequence[Solved]
    chosen: Solved


def place(layout: Layout, spec: PhotoSpec, folder: Path) -> Placed:
    """Solve where the camera stood.

    Args:
        layout: The roof.
        spec: What the scene says about the photograph.
        folder: Where its files are.

    Raises:
        PhotoError: The photograph cannot be used.
        SceneError: A tapped corner is none of the roof, or there is no such camera to choose.
        UnsolvedError: No camera follows from the taps.
    """
    photograph = read_photograph(folder / spec.file)
    corners, taps = tapped(layout.roof, spec)
    solved = solve(corners, taps * photograph.scale, photograph.size, photograph.focal(spec.focal))
    if spec.choose > len(solved):
        told = counted(
            "{count} camera fits; choose that one",
            "{count} cameras fit; choose one of these",
            count=len(solved),
        )
        raise SceneError(Problem(told, ("photo", "choose")))
    return Placed(spec, photograph, solved, solved[spec.choose - 1])


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
