"""A speaker: says messages in one language, or in several beside each other, with lengths on one tape."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from trimwright.model.errors import Problem, SceneError, TrimwrightError
from trimwright.model.message import ENGLISH, Language, Listed, Message, Value, counted, message
from trimwright.model.scene.tables import tables_in
from trimwright.model.units import Tape

from .find_language import LANGUAGES, language_called

if TYPE_CHECKING:
    from trimwright.model.scene.schema import Scene


FEET = Tape()
"""Feet, inches and sixteenths, where nobody asks for anything else."""


class Beside(str):
    """The same words in several languages, one after another.

    Attributes:
        each: The words in each language by itself, which a sentence takes that they stand in.
    """

    each: tuple[str, ...]

    @classmethod
    def of(cls, each: Sequence[str]) -> Beside:
        """Return words in several languages; what is alike in them is written once."""
        words = cls(" / ".join(dict.fromkeys(each)))
        words.each = tuple(each)
        return words


@dataclass(frozen=True, slots=True)
class Speaker:
    """Call it with a message, or with a sentence and its values.

    Attributes:
        language: That it speaks.
        tape: On which it reads lengths.
        beside: Languages that it says the same in, after the first.
    """

    language: Language = ENGLISH
    tape: Tape = FEET
    beside: tuple[Language, ...] = ()

    def __call__(self, words: str | Message | Problem | TrimwrightError, /, **values: Value) -> str:
        """Return the words.

        Args:
            words: A message, or what carries one; or a whole sentence in English with ``{name}`` for each value.
            values: Of a sentence, by name.

        Raises:
            ValueError: A place of the sentence has no value, or a value no place.
        """
        return self._said(message(words, **values) if isinstance(words, str) else words)

    def counted(self, one: str, other: str, /, count: int, **values: Value) -> str:
        """Return a sentence whose words depend on ``count``, as `trimwright.model.message.counted` takes it."""
        return self._said(counted(one, other, count=count, **values))

    def alone(self) -> Speaker:
        """Return the speaker of the first language only, for what is read on a screen that can be switched."""
        return replace(self, beside=())

    def _said(self, words: Message | Problem | TrimwrightError) -> str:
        if not self.beside:
            return words.said(self.language, self.tape)
        languages = (self.language, *self.beside)
        return Beside.of(
            [_in_one(words, place).said(language, self.tape) for place, language in enumerate(languages)]
        )


def _in_one(words: Message | Problem | TrimwrightError, place: int) -> Message | Problem | TrimwrightError:
    """Return the words with those of one language alone wherever words in several stand in them."""
    if not isinstance(words, Message):
        return words
    return replace(words, values=tuple((name, _value_in_one(value, place)) for name, value in words.values))


def _value_in_one(value: Value, place: int) -> Value:
    match value:
        case Beside():
            return value.each[place]
        case Message():
            return replace(
                value, values=tuple((name, _value_in_one(one, place)) for name, one in value.values)
            )
        case Listed():
            return replace(value, values=tuple(_value_in_one(one, place) for one in value.values))
        case _:
            return value


ENGLISH_IN_FEET = Speaker()
"""Who speaks where no scene is asked."""


def told(say: Speaker, words: str | Message) -> str:
    """Return a message in words; text that somebody typed, or that is said already, stays as it is."""
    return words if isinstance(words, str) else say(words)


def speaker_for(text: str) -> Speaker:
    """Return the speaker that the text of a scene asks for, as far as it can be read; else English, in feet."""
    try:
        tables = tables_in(text)
    except SceneError:
        return Speaker()
    asked = tables.get("language")
    listed = asked if isinstance(asked, list) else [asked]
    codes = [code for code in listed if isinstance(code, str) and code in LANGUAGES]
    return speaker(codes or ["en"], Tape("mm") if is_metric(tables) else FEET)


def is_metric(tables: Mapping[str, Any]) -> bool:
    """Return whether a scene's tables, readable or not, want lengths in millimeters."""
    style, unit = tables.get("show"), tables.get("unit")
    return style == "mm" or (style != "feet" and unit in ("mm", "cm", "m"))


def speaker_of(scene: Scene) -> Speaker:
    """Return the speaker that a scene asks for.

    Raises:
        SceneError: There are no words for one of its languages.
    """
    return speaker(scene.language, scene.tape)


def speaker(codes: Sequence[str], tape: Tape = FEET) -> Speaker:
    """Return the speaker of one language or several, by their codes.

    Raises:
        SceneError: There are no words for one of them.
    """
    first, *beside = (language_called(code) for code in codes)
    return Speaker(first, tape, tuple(beside))
