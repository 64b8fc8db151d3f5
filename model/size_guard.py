"""How much a roof will take, worked out before it is laid out: the guard against a slip of the pen.

It looks at the edges and faces of the roof, so it holds for roofs of every form.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from .edge_kinds import KINDS
from .errors import Problem, SceneError
from .limits.record import Limits
from .message import message
from .roof.record import Edge, Roof
from .scene.schema import Scene, TrimSpec

UP = np.array([0.0, 0.0, 1.0])


class TooMuchError(SceneError):
    """A scene that takes more than is laid out."""


class Amount(NamedTuple):
    """How many of each are set on a roof."""

    pieces: int
    screws: int
    panels: int


MOST = Amount(3_000, 30_000, 3_000)
"""More than these on one roof is a slip of the pen, and would keep a computer busy for minutes."""


def amount_of(scene: Scene, limits: Limits, roof: Roof) -> Amount:
    """Return about how many pieces, screws and panels a roof takes."""
    spacing = scene.screws.spacing or limits.number("screw-spacing")
    pieces = screws = 0
    for edge in roof.edges:
        spec = scene.trim_for(edge.kind, edge.name) if edge.kind in KINDS else None
        if spec is None:
            continue
        count = _pieces(edge, spec, scene)
        kind = KINDS[edge.kind]
        rows = 0 if kind.cleated else 2 * int(limits.number("screw-rows")) if kind.is_cap else 1
        pieces += count
        screws += rows * (math.ceil(edge.length / spacing) + count)
    screws += sum(map(len, scene.screws.placed.values()))
    return Amount(pieces, screws, sum(_panels(roof, face, scene) for face in range(len(roof.faces))))


def refuse_much(amount: Amount, most: Amount = MOST) -> None:
    """Refuse a roof that takes more than ``most``.

    Raises:
        TooMuchError: what it takes too much of, and what to change.
    """
    problems = list(_too_much(amount, most))
    if problems:
        raise TooMuchError(*problems)


def _pieces(edge: Edge, spec: TrimSpec, scene: Scene) -> int:
    """Return about how many pieces an edge takes: those placed by hand, or as many as the stock and the lap make."""
    if spec.pieces is not None:
        return len(spec.pieces)
    stock = scene.metal.stock[-1]
    gain = max(stock - spec.lap, 1e-6)
    return 1 + max(0, math.ceil((edge.length - stock) / gain))


def _panels(roof: Roof, index: int, scene: Scene) -> int:
    """Return about how many panels a face takes: its width along its eave, by the cover."""
    face = roof.faces[index]
    right = np.cross(UP, face.normal)
    across = face.outline @ (right / np.linalg.norm(right))
    return math.ceil(float(np.ptp(across)) / scene.panels.cover)


def _too_much(amount: Amount, most: Amount) -> Iterator[Problem]:
    """Yield a problem for each of which there are too many."""
    if amount.pieces > most.pieces:
        told = message(
            "makes some {count} pieces, more than {most}; give longer stock, or a smaller roof",
            count=amount.pieces,
            most=most.pieces,
        )
        yield Problem(told, ("metal", "stock"))
    if amount.screws > most.screws:
        told = message(
            "makes some {count} screws, more than {most}; give a wider spacing, or a smaller roof",
            count=amount.screws,
            most=most.screws,
        )
        yield Problem(told, ("screws", "spacing"))
    if amount.panels > most.panels:
        told = message(
            "makes some {count} panels, more than {most}; give a wider cover, or a smaller roof",
            count=amount.panels,
            most=most.panels,
        )
        yield Problem(told, ("panels", "cover"))
