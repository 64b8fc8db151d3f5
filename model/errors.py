"""Errors that a person can act on: each problem names the place, what came, and the way out, in one line."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TypeAlias

from .measures import printable, shorten
from .message import ENGLISH, Language, Message
from .units import Tape

Key: TypeAlias = tuple[str | int, ...]
"""A place in a scene: the names of its tables and keys from the top, items of a list counted from 0."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong.

    Attributes:
        message: What came, what is allowed, and the way out.
        key: Where in the scene; empty for no place in it, or for all of it.
        file: Name of the file that it is in; empty where that goes without saying.
    """

    message: Message
    key: Key = ()
    file: str = ""

    def said(self, language: Language, tape: Tape) -> str:
        """Return the words, on one line: file, key and message, parted by colons."""
        parts = (printable(self.file), key_said(self.key, language), self.message.said(language, tape))
        return " ".join(": ".join(part for part in parts if part).split())

    def __str__(self) -> str:
        """Return the English words, lengths in feet and inches."""
        return self.said(ENGLISH, Tape())


class TrimwrightError(Exception):
    """Anything that keeps a scene from becoming a layout; the command line tells it and exits with 2."""

    def __init__(self, *problems: Problem | Message) -> None:
        """Keep every problem; a bare message is one that has no place in a scene."""
        super().__init__(*problems)
        self.problems = tuple(one if isinstance(one, Problem) else Problem(one) for one in problems)

    def __str__(self) -> str:
        """Return the problems in English, one line each."""
        return self.said(ENGLISH, Tape())

    def said(self, language: Language, tape: Tape) -> str:
        """Return the problems, one line each."""
        return "\n".join(one.said(language, tape) for one in self.problems)

    def within(self, file: str) -> tuple[Problem, ...]:
        """Return the problems, those that name no file as those of ``file``."""
        return tuple(replace(one, file=one.file or file) for one in self.problems)


class SceneError(TrimwrightError):
    """A scene that cannot be read or built; carries every problem found."""


class GeometryError(TrimwrightError):
    """A shape that cannot exist: planes that do not meet, a cut that leaves nothing."""


class FlatCornerError(GeometryError):
    """What meets is so nearly in line or in one plane that a joint's cuts run along a piece and never cross it."""


def key_said(key: Key, language: Language = ENGLISH) -> str:
    """Return a place in a scene as its keys are written: quoted where TOML would, items of a list from 1.

    Example:
        >>> key_said(("run", "front eave", "pieces", 1, "length"))
        'run."front eave".pieces no. 2.length'
    """
    words = ""
    for part in key:
        if isinstance(part, int):
            words = language.sentence("{list} no. {number}").format(list=words, number=part + 1)
        else:
            name = part if re.fullmatch(r"[A-Za-z0-9_-]{1,60}", part) else shorten(part)
            words = f"{words}.{name}" if words else name
    return words
