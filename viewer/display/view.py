"""A view point: what is shown from where, and what is written into it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from trimwright.model.geometry.arrays import Array
from trimwright.model.message import Message, message

from .body import Kind
from .camera import Shot
from .color_math import Color
from .notes import Label, NoteLine

Subject = Literal["roof", "short piece", "lap", "corner", "panels", "tape marks"]

HOUSE: frozenset[Kind] = frozenset({"deck", "fascia", "wall"})
OUTSIDE: frozenset[Kind] = frozenset({"siding", "foundation", "casing", "door", "glass", "gutter"})
"""What makes a house of the walls, where the finished look is shown from afar."""

PANELS: frozenset[Kind] = frozenset({"pan", "closure", "foam", "cleat"})
METAL: frozenset[Kind] = frozenset({"trim"})

BESIDE = 0.665
"""Share of the picture's width that a view leaves to itself when a legend stands beside it."""

CAUTION = message(
    "Tie off before the edge. Cut metal is sharp. Keep ladders and long pieces clear of power lines."
)
"""On every picture that is made to be carried to the roof."""


LEFT_OFF = message("panels left off")
"""The note of a view that shows none of them."""


def file_name(view: str) -> str:
    """Return the name of the file that the picture of a view goes to."""
    return view.replace(" ", "-") + ".png"


@dataclass(frozen=True, slots=True)
class Entry:
    """A numbered line of a legend.

    Attributes:
        number: Of what it speaks of in the picture.
        says: What is done there.
    """

    number: int
    says: Message


@dataclass(frozen=True, slots=True)
class LegendPart:
    """A part of a legend: a heading, and what is numbered under it."""

    heading: Message
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True, eq=False)
class ViewPoint:
    """One view of the stage.

    Attributes:
        name: What it is asked for by: ``street``, ``corner eave-rake R1-1``.
        title: What it shows, for its caption.
        shots: Its cameras, each with its part of the picture.
        shows: Kinds of bodies that are seen.
        coloring: The finished look, or pieces told apart.
        notes: What a reader must know to read it right, each a sentence without a full stop.
        focus: Marks of the pieces that it is about; empty for all.
        hidden: Marks of the pieces that would stand in the way.
        apart: By mark or name, how far a piece or a panel is lifted off its place, ``(3,) float, inches``.
        cut: A point on a plane and its unit normal, inches, scene frame: what lies past it is taken away.
        highlight: Marks of the pieces that stand out.
        labels: What is written at places.
        lines: What is drawn over it.
        legend: What is read beside the picture, part by part.
        key: What the colors mean.
        pins: Whether findings are pinned into it.
        outdoors: Whether the ground and the sky are seen.
        caution: Whether the usual cautions are printed on it.
        subject: What it is a view of.
        joint: Name of the kind of joint or lap that it shows; empty for none.
    """

    name: str
    title: Message
    shots: tuple[Shot, ...]
    shows: frozenset[Kind]
    coloring: Literal["finish", "pieces"]
    notes: tuple[Message, ...] = ()
    focus: frozenset[str] = frozenset()
    hidden: frozenset[str] = frozenset()
    apart: Mapping[str, Array] = field(default_factory=lambda: MappingProxyType({}))
    cut: tuple[Array, Array] | None = None
    highlight: frozenset[str] = frozenset()
    labels: tuple[Label, ...] = ()
    lines: tuple[NoteLine, ...] = ()
    legend: tuple[LegendPart, ...] = ()
    key: tuple[tuple[Message, Color], ...] = ()
    pins: bool = False
    outdoors: bool = False
    caution: bool = False
    subject: Subject = "roof"
    joint: str = ""
