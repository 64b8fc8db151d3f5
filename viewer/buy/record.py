"""A list: its columns and its rows, as spreadsheets, pages and paper take them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from trimwright.model.message import Message

Kind = Literal["text", "count", "length", "share", "weight", "money", "number"]
Cell = str | float | Message | None


@dataclass(frozen=True, slots=True)
class ListField:
    """A column of a list.

    Attributes:
        name: Its heading.
        kind: What its cells are: lengths are in inches, shares of 1, weights in pounds.
        share: Its width on paper, as a share of the widths of all.
    """

    name: Message
    kind: Kind = "text"
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class List:
    """A list.

    Attributes:
        key: Name of its file, in every language.
        name: What it is called.
        fields: Its columns.
        rows: Its rows, a cell for each column; None where there is nothing to say.
        notes: Sentences below it.
    """

    key: str
    name: Message
    fields: tuple[ListField, ...]
    rows: tuple[tuple[Cell, ...], ...]
    notes: tuple[Message, ...] = ()
