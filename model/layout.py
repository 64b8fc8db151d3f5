"""The layout: every piece cut, folded and set in its place, and every screw and panel with it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .fitting import Joint, Lap
from .limits.record import Limits
from .panels import Panel
from .pieces import Piece
from .roof.record import Roof
from .runs import Run
from .scene.schema import Scene
from .screws import Screw
from .sheet.sheet import Sheet
from .sheet.solid import Solid

__all__ = ["Joint", "Lap", "Layout", "Part"]

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A piece as it is cut, folded and set.

    Attributes:
        piece: Where it lies on its run, and its mark.
        run: The run it belongs to.
        sheet: Its flat pattern and bends; ``u`` is the run's own distance from its low end.
        placement: ``(4, 4)`` matrix from the folded sheet's ``(u, out, up)`` to the scene frame, inches;
            level and left-hand runs are mirrored by it.
        solid: The folded, thickened sheet in the scene frame.
        laps: Overlaps with the pieces before and after it.
        joints: What happens at those of its ends that meet other runs, or nothing.
    """

    piece: Piece
    run: Run
    sheet: Sheet
    placement: Array
    solid: Solid
    laps: tuple[Lap, ...]
    joints: tuple[Joint, ...]

    @property
    def mark(self) -> str:
        """The piece's mark, as written on the metal."""
        return self.piece.mark

    @property
    def low(self) -> float:
        """Run distance of the metal's lowest point: where the tape hooks on, inches."""
        return self.sheet.extent[0]

    @property
    def high(self) -> float:
        """Run distance of the metal's highest point, inches."""
        return self.sheet.extent[1]

    @property
    def length(self) -> float:
        """Length of the blank it is cut from: laps and allowances included, inches."""
        return self.high - self.low


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """All of it, placed.

    Attributes:
        scene: What was asked for.
        limits: Limits in force.
        roof: Faces and edges.
        runs: One trim along one edge each.
        parts: Every piece, run by run, low end first.
        screws: Every screw, piece by piece.
        panels: Every panel, face by face.
        untrimmed: Names of edges that the scene leaves without trim.
    """

    scene: Scene
    limits: Limits
    roof: Roof
    runs: tuple[Run, ...]
    parts: tuple[Part, ...]
    screws: tuple[Screw, ...]
    panels: tuple[Panel, ...]
    untrimmed: tuple[str, ...]
