"""The roof placed on a photograph: the cameras that fit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from trimwright.model.errors import Problem, SceneError
from trimwright.model.layout import Layout
from trimwright.model.message import counted
from trimwright.model.scene.photo import PhotoSpec

from .corners import tapped
from .photograph import Photograph, read_photograph
from .solve import Solved, solve


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
