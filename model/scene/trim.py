"""What a scene says about trim: for each kind of edge, for single runs, and profiles of its own."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, Field, StrictBool, model_validator
from pydantic_core import PydanticKnownError

from ..edge_kinds import KINDS, EdgeKind
from ..measures import shorten
from ..message import Listed, message
from .fields import Lap, PieceLength, Spec, Tab, Text, Width, refusal

Start = Literal["low", "high", "centered", "even", "shared"]
Hand = Literal["left", "right"]


class PlacedPiece(Spec):
    """A piece whose length is given by hand.

    Attributes:
        length: Of its metal, laps and allowances included, inches.
        hand: The hand it was made to; None for the run's own.
        lies: How it lies on the piece before it; None as water or wind wants it.
    """

    length: PieceLength
    hand: Hand | None = None
    lies: Literal["over", "under"] | None = None


def _piece(value: object) -> object:
    """Return a bare length as the table it stands for."""
    return value if isinstance(value, dict | PlacedPiece) else {"length": value}


Pieces = Annotated[
    tuple[Annotated[PlacedPiece, BeforeValidator(_piece)], ...], Field(min_length=1, max_length=500)
]


Names = Annotated[tuple[Text, ...], Field(max_length=100)]


class TrimSpec(Spec):
    """How the trim of one kind of edge is made.

    Attributes:
        profile: Name of its profile.
        lap: How far a piece lies over the next, inches.
        start: Where the full lengths begin; ``even`` makes all pieces alike; ``shared`` begins low, and shares a
            remainder that would be too short with the piece beside it.
        tab: Width of the strip that is folded round the corner, inches; 0 for none.
        face: Width of its face, inches; None for the profile's own, deeper where drip edges would hang apart.
        over: What it lies over where they meet, whatever is usual: kinds of edge, or names of runs.
        pieces: Lengths given by hand, from the low end; None to lay them out.
        fixed: It is fastened so that it cannot move.
        sealed: Its laps are set in sealant.
        closure: Name of the closures that it stands on between the panels' seams, where it lies over panels.
    """

    profile: Text
    lap: Lap = 4.0
    start: Start = "shared"
    tab: Tab = 0.375
    face: Width | None = None
    over: Names = ()
    pieces: Pieces | None = None
    fixed: StrictBool = False
    sealed: StrictBool = True
    closure: Text = "Z"


class TrimOverride(Spec):
    """What one run has otherwise than its kind of edge; the keys of `TrimSpec`, all optional."""

    profile: Text | None = None
    lap: Lap | None = None
    start: Start | None = None
    tab: Tab | None = None
    face: Width | None = None
    over: Names | None = None
    pieces: Pieces | None = None
    fixed: StrictBool | None = None
    sealed: StrictBool | None = None
    closure: Text | None = None


def _bare(value: object) -> object:
    """Return None for ``false``: this edge stays bare."""
    if value is True:
        raise refusal(
            message("true says nothing; give a table, or false to leave the edge bare, or leave the key out")
        )
    return None if value is False else value


def _every_kind(value: object) -> object:
    """Return the table of all kinds of edge: those that it leaves out are there, each with its own profile."""
    if not isinstance(value, dict):
        return value
    asked = {**{kind: {} for kind in KINDS}, **value}
    return {kind: _with_profile(kind, table) if kind in KINDS else None for kind, table in asked.items()}


def _with_profile(kind: EdgeKind, table: object) -> object:
    """Return the table of a kind of edge with that kind's own profile where it names none."""
    return {"profile": KINDS[kind].profile, **table} if isinstance(table, dict) else table


def _known_key(kind: str) -> EdgeKind:
    """Return a key of ``[trim]`` if there is such a kind of edge."""
    if kind not in KINDS:
        raise PydanticKnownError("extra_forbidden")
    return kind


def _known_kind(kind: str) -> EdgeKind:
    """Return a kind of edge that a profile names if there is such a kind."""
    if kind not in KINDS:
        kinds = Listed(tuple(map(repr, KINDS)), "or")
        raise refusal(message("{came} is no kind of edge; give {kinds}", came=shorten(kind), kinds=kinds))
    return kind


TrimSpecs = Annotated[
    dict[Annotated[str, AfterValidator(_known_key)], Annotated[TrimSpec | None, BeforeValidator(_bare)]],
    BeforeValidator(_every_kind),
]
"""The trim of every kind of edge; None leaves those edges bare."""

RunOverride = Annotated[TrimOverride | None, BeforeValidator(_bare)]


class LegSpec(Spec):
    """One straight part of a profile, from inboard to outboard.

    Attributes:
        name: Unique in its profile.
        width: To the outside of its bends, inches.
        direction: Where it points: along the roof's own deck or the far one, plumb, or square to the deck; of a
            valley's rib, up and down again, twice as high as wide.
        turn: How far it turns from the leg before, degrees, positive away from the painted side; beside a
            direction it says which way round a hem is folded.
        relieved: It is cut away where the piece lies under another one at a lap.
        fastened: Screws go through it.
        tight: The hem that it is is pressed down until one sheet, a cleat's, just slips in.
    """

    name: Text
    width: Width
    direction: Literal["deck", "far deck", "plumb", "square", "rib up", "rib down"] | None = None
    turn: Annotated[float, Field(ge=-180, le=180)] | None = None
    relieved: StrictBool = False
    fastened: StrictBool = False
    tight: StrictBool = False

    @model_validator(mode="after")
    def _points_somewhere(self) -> LegSpec:
        if self.turn == 0:
            raise refusal(
                message("leg '{leg}' turns by 0 degrees; join it with the leg before", leg=self.name)
            )
        return self


class ProfileSpec(Spec):
    """A cross-section.

    Attributes:
        legs: From inboard to outboard.
        edges: Kinds of edge it suits.
        anchor: Name of the leg that lies against the edge of the deck.
    """

    legs: Annotated[tuple[LegSpec, ...], Field(min_length=1, max_length=24)]
    edges: Annotated[
        tuple[Annotated[Text, AfterValidator(_known_kind)], ...], Field(min_length=1, max_length=24)
    ]
    anchor: Text

    @model_validator(mode="after")
    def _holds_together(self) -> ProfileSpec:
        names = [leg.name for leg in self.legs]
        if self.legs[0].turn is not None:
            raise refusal(
                message(
                    "the first leg, '{leg}', has nothing to turn from; give it a direction instead",
                    leg=names[0],
                )
            )
        for before, leg in pairwise(self.legs):
            if leg.direction is None and leg.turn is None:
                raise refusal(
                    message("leg '{leg}' has neither direction nor turn; give one of the two", leg=leg.name)
                )
            if before is self.legs[0] and before.direction is None and leg.turn is None:
                raise refusal(
                    message(
                        "the first leg, '{leg}', points nowhere; give it a direction, such as deck, "
                        "or give leg '{next}' a turn beside its direction",
                        leg=before.name,
                        next=leg.name,
                    )
                )
        if not any(leg.direction for leg in self.legs):
            raise refusal(
                message("no leg has a direction; give one, such as deck, to the leg that lies on the roof")
            )
        if len(set(names)) < len(names):
            twice = next(name for name in names if names.count(name) > 1)
            raise refusal(message("two legs are called '{leg}'; give each its own name", leg=twice))
        if {"face", "return"} <= set(names) and names.index("return") > names.index("face"):
            raise refusal(
                message(
                    "leg 'return' is the lip that panels hook, above the face; call this one otherwise, such as hem"
                )
            )
        if self.anchor not in names:
            raise refusal(
                message(
                    "anchor '{anchor}' is no leg of it; give one of {legs}",
                    anchor=self.anchor,
                    legs=Listed(tuple(names), "comma"),
                )
            )
        if not any(leg.fastened for leg in self.legs) and not all(KINDS[kind].cleated for kind in self.edges):
            raise refusal(
                message("no leg is fastened; say fastened = true on the leg that the screws go through")
            )
        return self
