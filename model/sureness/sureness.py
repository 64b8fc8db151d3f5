"""How far lengths and miters move within what the measures may be off: at the bounds, and in roofs drawn by chance."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ..errors import SceneError, TrimwrightError
from ..fitting import Fitted
from ..geometry.arrays import Array
from ..joints.end import At
from ..limits.record import Limits
from ..pieces import Piece, cut_pieces
from ..roof.record import Edge, Roof
from ..runs import Run
from ..scene.schema import Scene
from ..survey.quantities import Quantity
from ..survey.record import Survey
from ..tolerances import MITER_GAP, POINT, TAPE
from .record import (
    MEASURES,
    PROMISE,
    Division,
    MiterSureness,
    PieceSureness,
    RunSureness,
    Sureness,
)
from .trial import Trial, trial_of, tried
from .unknowns import Unknowns, unknowns_of

DRAWN = 400
"""Roofs that are drawn by chance: shares are then known to 5 of 100."""

SEED = 7
"""The same roofs are drawn each time, so that the same scene says the same."""

ACROSS = 25
"""Places between a run's least and greatest length at which it is divided besides those where its count changes."""


def sureness_of(
    scene: Scene, limits: Limits, roof: Roof, survey: Survey | None, fitted: Sequence[Fitted]
) -> Sureness | None:
    """Return how sure a layout is.

    None where the scene does not say how well its roof was measured, where that were too many measures to look at, and
    where some roof within what they may be off cannot be laid out at all.
    """
    try:
        unknowns = unknowns_of(scene, roof, survey)
        if unknowns is None or len(unknowns.most) > MEASURES:
            return None
        return _sureness(scene, limits, unknowns, survey, fitted)
    except TrimwrightError:
        return None


def _sureness(
    scene: Scene, limits: Limits, unknowns: Unknowns, survey: Survey | None, fitted: Sequence[Fitted]
) -> Sureness:
    """Return how sure a layout is.

    Raises:
        TrimwrightError: Some roof within what its measures may be off cannot be laid out.
    """
    runs = {one.run.name: one.run for one in fitted}
    least = limits.number("short-end-piece")
    now = trial_of(unknowns.roof, scene, limits)
    slopes = _slopes(now, unknowns, scene, limits)
    drawn = _drawn(len(unknowns.most))
    found: dict[str, RunSureness] = {}
    for name, run in runs.items():
        bounds = _bounds(name, now.reach[name], slopes.reach[name], unknowns, scene, limits)
        told = survey is None or name not in survey.loose
        found[name] = _run(run, now.reach[name], slopes.reach[name], bounds, drawn, scene, least, told)
    miters = tuple(
        _miter(key, angle, slopes.miters[key], drawn, fitted)
        for key, angle in now.miters.items()
        if key in slopes.miters
    )
    return Sureness(found, miters, {one.mark: one for one in _pieces(fitted, found)}, DRAWN)


@dataclass(frozen=True, slots=True, eq=False)
class _Slopes:
    """How a trial changes with each measure, over what that may be off.

    Attributes:
        reach: By run, ``(4, m)`` inches.
        miters: By run and end, ``(m,)`` radians.
    """

    reach: Mapping[str, Array]
    miters: Mapping[tuple[str, At], Array]


def _slopes(now: Trial, unknowns: Unknowns, scene: Scene, limits: Limits) -> _Slopes:
    """Return how reaches and miters change: metal with its edge, miters by a trial for each measure."""
    others = [tried(unknowns, way, scene, limits) for way in np.eye(len(unknowns.most))]
    made = set(now.miters).intersection(*(one.miters for one in others))
    return _Slopes(
        {edge.name: _along(edge, unknowns) for edge in unknowns.roof.edges if edge.name in now.reach},
        {
            key: np.array([one.miters[key] - now.miters[key] for one in others])
            for key in now.miters
            if key in made
        },
    )


def _along(edge: Edge, unknowns: Unknowns) -> Array:
    """Return how the reach of the metal along an edge changes, ``(4, m)``: its end goes with the edge's."""
    length = Quantity(edge.name, "length", edge.vertices).gradient(unknowns.roof.vertices).ravel()
    change = np.zeros((4, len(unknowns.most)))
    change[1] = length @ unknowns.gain * unknowns.most
    return change


def _drawn(count: int) -> Array:
    """Return ``(DRAWN, count)``: by how much each measure is off in each roof, of what it may be, -1 to 1."""
    random = np.random.default_rng(SEED)
    drawn = random.normal(0.0, 0.5, (DRAWN, count))
    while (beyond := np.abs(drawn) > 1.0).any():
        drawn[beyond] = random.normal(0.0, 0.5, int(beyond.sum()))
    return drawn


def _bounds(
    name: str, now: Array, slopes: Array, unknowns: Unknowns, scene: Scene, limits: Limits
) -> tuple[Array, Array]:
    """Return the reach of a run where the measures are off so that it is shortest, and longest.

    Half a mark of the tape is allowed for besides: an end is cut straight where a tape does not tell it from that.
    """
    way = np.sign(slopes[1])
    found = [now, *(tried(unknowns, sign * way, scene, limits).reach[name] for sign in (-1.0, 1.0))]
    low, *_, high = sorted(found, key=lambda reach: float(reach[1] - reach[0]))
    mark = np.array([0.0, TAPE, 0.0, 0.0])
    return low - mark, high + mark


def _run(
    run: Run,
    now: Array,
    slopes: Array,
    bounds: tuple[Array, Array],
    drawn: Array,
    scene: Scene,
    least: float,
    told: bool,
) -> RunSureness:
    """Return how sure one run is."""
    spans: dict[int, list[list[float]]] = {}
    for reach in _between(run, bounds, least, scene):
        pieces = _divided(run, reach, scene, least)
        if pieces:
            spans.setdefault(len(pieces), []).append([piece.length for piece in pieces])
    counts: Counter[int] = Counter()
    short = bare = 0
    for off in drawn:
        pieces = _divided(run, now + slopes @ off, scene, least)
        counts[len(pieces)] += 1
        bare += not pieces
        short += len(pieces) > 1 and min(piece.length for piece in pieces) < least - POINT
    divisions = [
        Division(
            count,
            counts[count] / len(drawn),
            tuple((min(lengths), max(lengths)) for lengths in zip(*own, strict=True)),
        )
        for count, own in spans.items()
    ]
    low, high = bounds
    return RunSureness(
        run.name,
        (float(low[1] - low[0]), float(high[1] - high[0])),
        told,
        tuple(sorted(divisions, key=lambda one: -one.share)),
        short / len(drawn),
        bare / len(drawn),
    )


def _between(run: Run, bounds: tuple[Array, Array], least: float, scene: Scene) -> Iterator[Array]:
    """Yield reaches from a run's shortest to its longest, on both sides of each at which it divides otherwise."""
    low, high = bounds
    first, last = float(low[1] - low[0]), float(high[1] - high[0])
    if last - first <= POINT:
        yield from (low, high)
        return
    stock, lap = scene.metal.stock[-1], run.spec.lap
    turns = [stock, *(k * (stock - lap) + rest for k in range(1, 200) for rest in (least, stock))]
    totals = [*np.linspace(first, last, ACROSS)]
    totals += [turn + side for turn in turns for side in (-POINT, POINT) if first < turn + side < last]
    for total in totals:
        yield low + (high - low) * (total - first) / (last - first)


def _divided(run: Run, reach: Array, scene: Scene, least: float) -> tuple[Piece, ...]:
    """Return the pieces of a run whose metal reaches so far; none where pieces placed by hand do not cover it."""
    low, high, *depth = (float(one) for one in reach)
    try:
        return cut_pieces(run, (low, high), (depth[0], depth[1]), scene, least)
    except SceneError:
        return ()


def _miter(
    key: tuple[str, At], angle: float, slopes: Array, drawn: Array, fitted: Sequence[Fitted]
) -> MiterSureness:
    """Return how sure a miter is: cut as drawn on a roof where its angle is another, it gapes at one end."""
    line = next(
        end.miter
        for one in fitted
        for end in one.ends.corners
        if (one.run.name, end.at) == key and end.miter is not None
    )
    length = float(np.linalg.norm(line[-1] - line[0]))
    off = float(np.abs(slopes).sum())
    gapes = length * np.abs(np.tan(drawn @ slopes))
    share = float((gapes > MITER_GAP).mean())
    return MiterSureness(*key, angle, off, share)


def _pieces(fitted: Sequence[Fitted], runs: Mapping[str, RunSureness]) -> Iterator[PieceSureness]:
    """Yield how sure each piece is, divided as drawn."""
    counts = Counter(one.run.name for one in fitted)
    for one in fitted:
        run, piece = runs[one.run.name], one.piece
        division = next((each for each in run.divisions if each.count == counts[one.run.name]), None)
        low, high = one.sheet.extent
        least, most = (piece.length,) * 2 if division is None else division.lengths[piece.number - 1]
        off = max(most - piece.length, piece.length - least)
        in_doubt = len(run.divisions) > 1 or not run.told
        last = piece.number == counts[one.run.name]
        fit = not piece.placed and (off > PROMISE or (in_doubt and last))
        aside = high - low - piece.length
        yield PieceSureness(piece.mark, least + aside, most + aside, fit)
