"""A speaker: says messages in one language, with lengths on one tape."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.message import ENGLISH, Language, Message, Value, counted, message
from trimwright.model.units import Tape

from .languages import LANGUAGES, language_called

if TYPE_CHECKING:
    from trimwright.model.scene.schema import Scene


FEET = Tape()
"""Feet, inches and sixteenths, where nobody asks for anything else."""


@dataclass(frozen=True, slots=True)
class Speaker:
    """Call it with a message, or with a sentence and its values.

    Attributes:
        language: That it speaks.
        tape: On which it reads lengths.
    """

    language: Language = ENGLISH
    tape: Tape = FEET

    def __call__(self, words: str | Message | Problem | TrimwrightError, /, **values: Value) -> str:
        """Return the words.

        Args:
            words: A message, or what carries one; or a whole sentence in English with ``{name}`` for each value.
            values: Of a sentence, by name.

        Raises:
            ValueError: A place of the sentence has no value, or a value no place.
        """
        return (message(words, **values) if isinstance(words, str) else words).said(self.language, self.tape)

    def counted(self, one: str, other: str, /, count: int, **values: Value) -> str:
        """Return a sentence whose words depend on ``count``, as `trimwright.model.message.counted` takes it."""
        return counted(one, other, count=count, **values).said(self.language, self.tape)


ENGLISH_IN_FEET = Speaker()
"""Who speaks where no scene is asked."""


def told(say: Speaker, words: str | Message) -> str:
    """Return a message in words; text that somebody typed, or that is said already, stays as it is."""
    return words if isinstance(words, str) else say(words)


def speaker_for(text: str) -> Speaker:
    """Return the speaker that the text of a scene asks for, as far as it can be read; else English, in feet."""
    try:
        tables = tomllib.loads(text)
    except (ValueError, RecursionError):
        return Speaker()
    code, style, unit = (tables.get(key) for key in ("language", "show", "unit"))
    known = isinstance(code, str) and code in LANGUAGES
    metric = style == "mm" or (style != "feet" and unit in ("mm", "cm", "m"))
    return Speaker(language_called(str(code)) if known else ENGLISH, Tape("mm") if metric else FEET)


def speaker_of(scene: Scene) -> Speaker:
    """Return the speaker that a scene asks for.

    Raises:
        SceneError: The program has no such language.
    """
    return Speaker(language_called(scene.language), scene.tape)
