"""How sure a layout's lengths and miters are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..joints.end import At

MEASURES = 60
"""A roof measured by more than this is not laid out anew for each of them: it would take longer than anybody waits."""

PROMISE = 1 / 8
"""A length that may be off by more than this is cut to fit on the roof, inches: what a joint takes up, as for gaps in a
run. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Division:
    """One way in which a run may come to be divided.

    Attributes:
        count: How many pieces it takes then.
        share: In how many of the roofs that were tried, 0 to 1.
        lengths: Of each piece, from the low end: the least and the most, inches.
    """

    count: int
    share: float
    lengths: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class RunSureness:
    """How sure the pieces of one run are.

    Attributes:
        run: Name of it.
        total: The least and the most metal along it, inches.
        told: Its length follows from what was measured; else it is what was planned, and nobody measured it.
        divisions: How it may be divided, the likeliest first.
        short: Share of the roofs that were tried in which one of several pieces is shorter than may stand.
        bare: Share of them in which pieces placed by hand do not cover it.
    """

    run: str
    total: tuple[float, float]
    told: bool
    divisions: tuple[Division, ...]
    short: float
    bare: float


@dataclass(frozen=True, slots=True)
class MiterSureness:
    """How sure one miter is.

    Attributes:
        run: Name of its run.
        at: Which end.
        angle: Of the line on the sheet, off square, radians.
        off: How far that may be off either way, radians.
        open: Share of the roofs that were tried in which it gapes more than sealant bridges.
    """

    run: str
    at: At
    angle: float
    off: float
    open: float


@dataclass(frozen=True, slots=True)
class PieceSureness:
    """How sure the length of one piece is.

    Attributes:
        mark: Its mark.
        least: Its least length, inches.
        most: Its greatest.
        fit: It is cut to fit on the roof: the measures cannot promise its length.
    """

    mark: str
    least: float
    most: float
    fit: bool


@dataclass(frozen=True, slots=True, eq=False)
class Sureness:
    """How sure a layout is.

    Attributes:
        runs: Every run by its name.
        miters: Every miter.
        pieces: Every piece by its mark.
        tried: How many roofs were tried.
    """

    runs: Mapping[str, RunSureness]
    miters: tuple[MiterSureness, ...]
    pieces: Mapping[str, PieceSureness]
    tried: int
