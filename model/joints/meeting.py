"""A meeting: which ends of trim a joint is made for, which of them lies on which, and what the joint is handed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Literal, Protocol

from ..edge_kinds import EdgeKind
from ..roof.record import Edge, Roof
from ..runs import Run
from ..tolerances import LEVEL
from .end import At, End, JointKind
from .stand import Stand

Ends = frozenset[tuple[EdgeKind, At]]
"""Ends of trim, by the kind of its edge."""

Rests = Literal["beside", "on", "past", "upon", "outside", "stacked"]


def low_end(kind: EdgeKind) -> Ends:
    """Return the low end of trim on a kind of edge."""
    return frozenset({(kind, "low")})


def high_end(kind: EdgeKind) -> Ends:
    """Return the high end of trim on a kind of edge."""
    return frozenset({(kind, "high")})


def either_end(kind: EdgeKind) -> Ends:
    """Return both ends of trim on a kind of edge, which may be level or rise either way from there."""
    return low_end(kind) | high_end(kind)


def comes_down(run: Run, at: At) -> int:
    """Return 1 where water comes down a run to this end of it, -1 where it goes down from it, 0 where it is level."""
    if abs(run.edge.slope) <= LEVEL:
        return 0
    return 1 if at == "low" else -1


@dataclass(frozen=True, slots=True)
class Meeting:
    """What a joint is made for: a row of data at the head of its module.

    Attributes:
        edges: Kinds of the edges of the roof that end at such a corner, each as often as it does, trimmed or not.
        ends: The ends that the joint cuts, the lowest first, where nobody wants it otherwise.
        around: Ends that it closes over, as far as they have trim; they are cut by a joint of their own.
        more: There may be any number of the last of ``ends``, and of ``edges``.
        last: Of ends that are alike the one with the greatest key lies on top; None for the later run.
        turns: The ends may lie the other way round.
        rests: How an end lies on those under it: ``beside`` them, ``on`` the leg that is fastened, on it ``past`` the
            corner alone, ``outside`` the face, or ``stacked`` like caps, no two that share a face at one height; or
            all of them ``upon`` those that they close over.
        overlap: How far an end that is stacked lies over the one under it, inches.
        all_trimmed: It is made only where every edge at the corner has trim.
        where: Tells whether the edges at a corner leave room for it; None where they always do.
    """

    edges: tuple[EdgeKind, ...]
    ends: tuple[Ends, ...]
    around: Ends = frozenset()
    more: bool = False
    last: Callable[[Run, At], Any] | None = None
    turns: bool = False
    rests: Rests = "beside"
    overlap: float = 0.0
    all_trimmed: bool = False
    where: Callable[[Sequence[Edge]], bool] | None = None

    def is_at(self, edges: Sequence[Edge]) -> bool:
        """Return whether a corner where these edges end is one that the joint is made for."""
        kinds = [edge.kind for edge in edges]
        meet = set(kinds) <= set(self.edges) if self.more else sorted(kinds) == sorted(self.edges)
        return meet and (self.where is None or self.where(edges))


@dataclass(frozen=True, slots=True, eq=False)
class Met:
    """What meets at a corner, each end standing in its place.

    Attributes:
        ends: Those that the joint cuts, the lowest first.
        around: Those that it closes over.
        edges: Every edge of the roof that ends there.
        roof: The roof.
        bridged: Edges within the corner, too short for trim of their own; what ends at both ends of each meets here.
    """

    ends: tuple[Stand, ...]
    around: tuple[Stand, ...]
    edges: tuple[Edge, ...]
    roof: Roof
    bridged: tuple[Edge, ...] = ()


class Joint(Protocol):
    """What the module of a joint offers."""

    @property
    def KIND(self) -> JointKind:
        """What it is called, and what holds for all of its kind."""

    @property
    def MEETING(self) -> Meeting:
        """What it is made for."""

    def fit(self, met: Met) -> Sequence[End]:
        """Cut the ends that meet, in their order.

        Raises:
            GeometryError: they cannot be joined.
        """
