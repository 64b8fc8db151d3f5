"""The layout: every piece cut, folded and set in its place, and every screw and panel with it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from .limits.record import Limits
from .panels import Panel
from .pieces import Piece
from .roof.record import Roof
from .runs import Run
from .scene.schema import Scene
from .screws import Screw
from .sheet.sheet import Sheet
from .sheet.solid import Solid
from .steps import Step

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Lap:
    """Where one piece of a run lies over or under the next.

    Attributes:
        at: Which end of this piece.
        lies: Whether this piece lies over or under the other one.
        other: Mark of the other piece.
        length: How far the two overlap along the run, inches.
    """

    at: Literal["low", "high"]
    lies: Literal["over", "under"]
    other: str
    length: float


@dataclass(frozen=True, slots=True)
class Joint:
    """How one end of a piece is cut and folded where it meets its neighbours at a corner.

    Attributes:
        kind: ``eave-rake``, ``peak``, ``outside corner``, ``hip foot``, ``hip head``, ``ridge end``,
            ``high-rake`` or ``plain end``.
        at: Which end of the piece.
        lies: Over or under its neighbours; None where it does neither.
        others: Marks of the pieces it meets.
        steps: Hand-tool steps in order.
    """

    kind: str
    at: Literal["low", "high"]
    lies: Literal["over", "under"] | None
    others: tuple[str, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A piece as it is cut, folded and set.

    Attributes:
        piece: Where it lies on its run, and its mark.
        run: The run it belongs to.
        sheet: Its flat pattern and bends; ``u`` is the run's own distance from its low end.
        placement: ``(4, 4)`` matrix from the folded sheet's ``(u, out, up)`` to the scene frame, inches;
            mirrors for runs of the right hand.
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
    """All of it, placed."""

    scene: Scene
    limits: Limits
    roof: Roof
    runs: tuple[Run, ...]
    parts: tuple[Part, ...]
    screws: tuple[Screw, ...]
    panels: tuple[Panel, ...]
    untrimmed: tuple[str, ...]
    """Names of edges that the scene leaves without trim."""
