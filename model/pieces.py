"""Pieces: which lengths a run is cut into, and how they lap."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np

from .errors import Problem, SceneError
from .message import Length, Message, message
from .runs import Run
from .scene.schema import Scene
from .tolerances import LEVEL, TAPE

Lies = Literal["over", "under"]

WIND = {"left": (1.0, 0.0), "right": (-1.0, 0.0), "front": (0.0, 1.0), "back": (0.0, -1.0)}
"""Where the wind blows to, in plan, by the side it comes from."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One length of trim on its run.

    Attributes:
        mark: What is written on the metal: ``R2-3`` is the third piece from the low end of rake run 2.
        run: Name of its run.
        number: Place in the run, from 1 at the low end.
        start: Run distance of the metal's low end, inches; below 0 where it reaches past the corner.
        end: Run distance of the metal's high end, inches.
        stock: The stock length it is cut from, inches; the piece's own length when none is long enough.
        short: It is the remainder: the piece that was cut to what was left.
        placed: Its length was given by hand in the scene.
        hand: The hand it was made to, when the scene says so; else None.
        lies: How it lies on the piece before it; None for the first of a run.
    """

    mark: str
    run: str
    number: int
    start: float
    end: float
    stock: float
    short: bool
    placed: bool
    hand: str | None
    lies: Lies | None

    @property
    def length(self) -> float:
        """Length of the metal, inches."""
        return self.end - self.start


ROOM = 3.0
"""Whole metal that the shortest piece keeps between its lap and the cuts at its other end, inches: as much as the
rules want there for sealant."""


def cut_pieces(
    run: Run, reach: tuple[float, float], depth: tuple[float, float], scene: Scene, least: float
) -> tuple[Piece, ...]:
    """Divide a run into pieces.

    Args:
        run: The run.
        reach: Lowest and highest run distance that its metal must reach, inches: past the corners where a tab
            or a turned-down end wants it.
        depth: How far the cuts at the low and the high corner go in from there, inches. A remainder too short
            to hold them takes what it lacks from its neighbor.
        scene: For the stock lengths and the wind.
        least: The shortest piece that may stand, inches: a shorter remainder is shared where the run asks for it.

    Raises:
        SceneError: hand-placed pieces do not cover the run, or there would be thousands of pieces.
    """
    spec, stock = run.spec, scene.metal.stock
    total = reach[1] - reach[0]
    if spec.pieces is None:
        spans = _by_rule(reach, depth, stock[-1], spec.lap, spec.start, run.name, least)
        hands: list[str | None] = [None] * len(spans)
        lies: list[Lies | None] = [None] * len(spans)
    else:
        lengths = [piece.length for piece in spec.pieces]
        spans = _by_hand(reach, lengths, spec.lap, run.name, scene)
        hands = [piece.hand for piece in spec.pieces[: len(spans)]]
        lies = [piece.lies for piece in spec.pieces[: len(spans)]]
    lengths = [end - start for start, end in spans]
    longest, shortest = max(lengths), min(lengths)
    usual = _usual_lap(run, scene)
    pieces = []
    for number, ((start, end), length) in enumerate(zip(spans, lengths, strict=True), 1):
        fitting = [bar for bar in stock if bar >= length - TAPE]
        pieces.append(
            Piece(
                mark=f"{run.code}-{number}",
                run=run.name,
                number=number,
                start=start,
                end=end,
                stock=fitting[0] if fitting else length,
                short=length <= shortest + TAPE < longest,
                placed=spec.pieces is not None,
                hand=hands[number - 1],
                lies=None if number == 1 else (lies[number - 1] or usual),
            )
        )
    assert math.isclose(pieces[-1].end - pieces[0].start, total, abs_tol=1e-6)
    return tuple(pieces)


def _by_rule(
    reach: tuple[float, float],
    depth: tuple[float, float],
    stock: float,
    lap: float,
    start: str,
    name: str,
    least: float,
) -> list[tuple[float, float]]:
    """Return the span of each piece along the run, low end first."""
    low, high = reach
    total = high - low
    step = stock - lap
    count = max(1, 1 + math.ceil((total - stock) / step - 1e-9))
    if count > 2000:
        told = message(
            "would take {count} pieces of {stock} with a lap of {lap}; give longer stock",
            count=count,
            stock=Length(stock),
            lap=Length(lap),
        )
        raise SceneError(Problem(told, ("run", name)))
    if count == 1:
        return [(low, high)]
    if start == "even":
        lengths = [(total + (count - 1) * lap) / count] * count
    elif start == "centered":
        ends = (total + (count - 1) * lap - (count - 2) * stock) / 2
        lengths = [ends] + [stock] * (count - 2) + [ends]
    else:
        rest = total - (count - 1) * step
        lengths = [stock] * (count - 1) + [rest]
        if start == "shared" and rest < least:
            lengths[-2:] = [(stock + rest) / 2] * 2
        if start == "high":
            lengths.reverse()
    for end, nxt, cuts in ((0, 1, depth[0]), (-1, -2, depth[1])):
        lack = cuts + lap + ROOM - lengths[end]
        if lack > 0 and lengths[nxt] - lack > 2 * lap + ROOM:
            lengths[end] += lack
            lengths[nxt] -= lack
    starts = low + np.concatenate([[0.0], np.cumsum(np.array(lengths[:-1]) - lap)])
    spans = [(float(s), float(s) + length) for s, length in zip(starts, lengths, strict=True)]
    spans[-1] = (spans[-1][0], high)
    return spans


def _by_hand(
    reach: tuple[float, float], lengths: list[float], lap: float, name: str, scene: Scene
) -> list[tuple[float, float]]:
    """Return the span of each hand-placed piece; the last ends with the run, whatever lap that leaves it."""
    low, high = reach
    spans: list[tuple[float, float]] = []
    at = low
    for length in lengths[:-1]:
        spans.append((at, at + length))
        at += length - lap
    spans.append((high - lengths[-1], high))
    refused = _uncovered(spans, lengths, reach, lap, scene)
    if refused:
        raise SceneError(Problem(refused, ("run", name, "pieces")))
    return [(low, high)] if len(lengths) == 1 else spans


def _uncovered(
    spans: list[tuple[float, float]],
    lengths: list[float],
    reach: tuple[float, float],
    lap: float,
    scene: Scene,
) -> Message | None:
    """Return how hand-placed pieces leave some of their run bare, or lie wholly on each other; None if they fit."""
    total = reach[1] - reach[0]
    if len(lengths) == 1:
        if lengths[0] >= total - TAPE:
            return None
        return message(
            "one piece of {length} leaves {bare} of the run bare; it takes {total}",
            length=Length(lengths[0]),
            bare=Length(total - lengths[0]),
            total=Length(total),
        )
    gap = spans[-1][0] - spans[-2][1]
    if gap > 0:
        return message(
            "they leave {bare} of the run bare; give {more} more, laps of {lap} included, or one piece more",
            bare=Length(gap),
            more=Length(scene.tape.up(gap + lap)),
            lap=Length(lap),
        )
    for number, (before, span) in enumerate(pairwise(spans), 2):
        if span[0] <= before[0] or span[1] <= before[1]:
            return message(
                "piece {number} would lie wholly on its neighbor; the run takes {total} of metal, "
                "so leave one out or shorten them by {extra}",
                number=number,
                total=Length(total),
                extra=Length(-gap - lap),
            )
    return None


def _usual_lap(run: Run, scene: Scene) -> Lies:
    """Return how a piece lies on the one before it: over it up a slope, away from the wind on the level."""
    if abs(run.edge.slope) > LEVEL:
        return "over"
    blows = np.array(WIND[scene.wind]) @ run.edge.direction[:2]
    return "under" if blows > 1e-6 else "over"
