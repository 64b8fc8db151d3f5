"""A message: what a person is to be told, as a sentence with places and the values that belong there.

The model says nothing itself. It gives messages, and whoever speaks to a person puts them into words, in that
person's language and on that person's tape. The English sentence is the key of the catalog, so English needs none.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from string import Formatter
from typing import Literal, Protocol, TypeAlias

from .units import Tape


@dataclass(frozen=True, slots=True)
class Length:
    """A length that a tape reads, inches."""

    inches: float


@dataclass(frozen=True, slots=True)
class Place(Length):
    """A place along a piece, inches from the end of it that the sentence names."""


@dataclass(frozen=True, slots=True)
class Fine(Length):
    """A length too small for a tape, such as a thickness or a gap, inches."""


@dataclass(frozen=True, slots=True)
class Round:
    """A round length that nobody measures to a mark, such as the spacing of cleats: told in round units of either kind.

    Attributes:
        inches: Where lengths are written in feet and inches.
        millimeters: Where they are written in millimeters.
    """

    inches: float
    millimeters: float


@dataclass(frozen=True, slots=True)
class Swing:
    """A difference of temperatures, degrees Fahrenheit: written in degrees Celsius beside millimeters."""

    fahrenheit: float


@dataclass(frozen=True, slots=True)
class Expanse:
    """An area of roof or of sheet: written in square feet or, beside millimetres, in square metres.

    Attributes:
        square_inches: The area.
        decimals: How many decimals of a square foot are written; a square metre has one more.
    """

    square_inches: float
    decimals: int = 0


@dataclass(frozen=True, slots=True)
class Slope:
    """An angle from level, radians: written as a pitch."""

    radians: float


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle that is set on a bevel or turned on a brake, radians: written in whole degrees.

    Attributes:
        radians: The angle.
        decimals: How many decimals of a degree are written.
    """

    radians: float
    decimals: int = 0


@dataclass(frozen=True, slots=True)
class Listed:
    """Values in a row: ``A, B and C``.

    Attributes:
        values: At least one.
        by: What joins the last to the others; a comma for a list that goes on.
    """

    values: tuple[Value, ...]
    by: Literal["and", "or", "comma"] = "and"


@dataclass(frozen=True, slots=True)
class Message:
    """A whole sentence, or a word that stands in one.

    Attributes:
        text: In English, with ``{name}`` where a value stands; the key of the catalog.
        values: What stands there, by name.
        other: The sentence for another ``count`` than one; None where the count does not matter.
    """

    text: str
    values: tuple[tuple[str, Value], ...] = ()
    other: str | None = None

    def said(self, language: Language, tape: Tape) -> str:
        """Return the words.

        Args:
            language: Gives the sentence.
            tape: Writes its lengths.
        """
        values = dict(self.values)
        if self.other is None:
            sentence = language.sentence(self.text)
        else:
            sentence = language.counted(self.text, self.other, _count_in(values))
        return sentence.format_map({name: _written(value, language, tape) for name, value in values.items()})

    def filled(self, **values: Value) -> Message:
        """Return the message with other values: of a table of sentences, the one that is chosen.

        Raises:
            ValueError: A place has no value, or a value no place.
        """
        _require(self.text, values)
        return replace(self, values=tuple(values.items()))

    def __str__(self) -> str:
        """Return the English words, lengths in feet and inches."""
        return self.said(ENGLISH, Tape())


Value: TypeAlias = Message | Length | Round | Swing | Expanse | Slope | Angle | Listed | str | int | float
"""What may stand in a message; text stands as it is: a mark, a name that a person gave, a key of the scene."""


class Language(Protocol):
    """What puts English sentences into the words of one language."""

    @property
    def code(self) -> str:
        """Its code, as in ISO 639: ``en``."""

    def sentence(self, text: str) -> str:
        """Return the sentence that says ``text``, with the same places."""

    def counted(self, one: str, other: str, count: int) -> str:
        """Return the sentence that says ``one`` or ``other``, as ``count`` wants it."""


@dataclass(frozen=True, slots=True)
class English:
    """The language in which messages are written."""

    code: str = "en"

    def sentence(self, text: str) -> str:
        """Return the sentence as it is."""
        return text

    def counted(self, one: str, other: str, count: int) -> str:
        """Return ``one`` for a count of one."""
        return one if count == 1 else other


ENGLISH: Language = English()


def message(text: str, /, **values: Value) -> Message:
    """Return a message.

    Args:
        text: A whole sentence or a whole label, in English, with ``{name}`` for each value; never a fragment
            that other words are to be joined to.
        values: By name.

    Raises:
        ValueError: A place has no value, or a value no place.

    Example:
        >>> str(message("Lay it {lap} over {mark}.", lap=Length(4), mark="R1-1"))
        'Lay it 4" over R1-1.'
    """
    _require(text, values)
    return Message(text, tuple(values.items()))


def counted(one: str, other: str, /, count: int, **values: Value) -> Message:
    """Return a message whose words depend on a count.

    Args:
        one: The sentence for one.
        other: The sentence for any other count.
        count: How many; stands at ``{count}``.
        values: By name.

    Raises:
        ValueError: A place has no value, or a value no place in either sentence.

    Example:
        >>> str(counted("{count} error", "{count} errors", count=2))
        '2 errors'
    """
    given = {"count": count, **values}
    _require(
        other, {name: value for name, value in given.items() if name != "count" or "count" in places(other)}
    )
    missing = places(one) - given.keys()
    if missing:
        raise ValueError(f"{one!r} has no value for {', '.join(sorted(missing))}")
    return Message(one, tuple(given.items()), other)


@lru_cache(maxsize=4096)
def places(text: str) -> frozenset[str]:
    """Return the names of the places in a sentence."""
    return frozenset(name for _, name, _, _ in Formatter().parse(text) if name is not None)


def _require(text: str, values: Mapping[str, Value]) -> None:
    """Refuse a sentence whose places and values do not belong together."""
    if places(text) != values.keys():
        lacking = sorted(places(text) - values.keys())
        beyond = sorted(values.keys() - places(text))
        raise ValueError(f"{text!r} lacks a value for {lacking} and has no place for {beyond}")


def _count_in(values: Mapping[str, Value]) -> int:
    count = values["count"]
    if not isinstance(count, int):
        raise TypeError(f"a count is a whole number, not {count!r}")
    return count


def _written(value: Value, language: Language, tape: Tape) -> str:
    """Return one value in words."""
    match value:
        case str():
            return value
        case Message():
            return value.said(language, tape)
        case Fine(inches):
            return tape.fine(inches)
        case Length(inches):
            return tape(inches)
        case Round(inches, millimeters):
            return tape(inches if tape.style == "feet" else millimeters / 25.4)
        case Swing(fahrenheit):
            return f"{fahrenheit:g} °F" if tape.style == "feet" else f"{fahrenheit / 1.8:.0f} °C"
        case Expanse(square_inches, decimals):
            return _area(square_inches, decimals, language, tape)
        case Slope(radians):
            return tape.pitch(radians)
        case Angle(radians, decimals):
            return f"{math.degrees(radians):.{decimals}f}"
        case Listed(values, by):
            return _joined([_written(one, language, tape) for one in values], by, language)
        case int():
            return f"{value:,}"
        case float():
            return f"{value:.4g}"


def _area(square_inches: float, decimals: int, language: Language, tape: Tape) -> str:
    """Return an area in the units that go with the tape's."""
    if tape.style == "feet":
        return language.sentence("{area} sq ft").format(area=f"{square_inches / 144:,.{decimals}f}")
    return language.sentence("{area} m²").format(area=f"{square_inches * 0.0254**2:,.{decimals + 1}f}")


def _joined(words: Iterable[str], by: Literal["and", "or", "comma"], language: Language) -> str:
    """Return words in a row, joined as the language joins them."""
    row = list(words)
    if by == "comma" or len(row) == 1:
        return ", ".join(row)
    joined = language.sentence("{row} and {last}") if by == "and" else language.sentence("{row} or {last}")
    return joined.format(row=", ".join(row[:-1]), last=row[-1])
