"""A made-up language for tests: every word accented and 40 % longer. A word that stays plain was never translated."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from trimwright.viewer.words.find_language import LANGUAGES

CODE = "qaa"
"""Kept free for private use by ISO 639-2."""

_PLAIN = "aceinosuyzdpACEINOSUYZDP"
_ACCENTED = "åçéïñöšüýžðþÅÇÉÏÑÖŠÜÝŽÐÞ"
"""Only what every font of the packet has: Windows code page 1252."""
_ACCENTS = str.maketrans(_PLAIN, _ACCENTED)
_PART = re.compile(r"(\{\{|\}\}|\{\w*\})|([A-Za-z]+)")


def accented(text: str) -> str:
    """Return a sentence in the made-up language; its places stay as they are."""
    return _PART.sub(lambda part: part[1] or _longer(part[2]), text)


def _longer(word: str) -> str:
    """Return one word accented and lengthened by 40 %, rounded up, with its last letter."""
    return (word + word[-1].lower() * -(-len(word) * 2 // 5)).translate(_ACCENTS)


@dataclass(frozen=True, slots=True)
class Accented:
    """The made-up language; it counts as English does."""

    code: str = CODE

    def sentence(self, text: str) -> str:
        return accented(text)

    def counted(self, one: str, other: str, count: int) -> str:
        return accented(one if count == 1 else other)


@contextmanager
def spoken() -> Iterator[str]:
    """Let scenes ask for the made-up language inside; gives its code."""
    LANGUAGES[CODE] = Accented
    try:
        yield CODE
    finally:
        del LANGUAGES[CODE]


def plain_words(text: str) -> set[str]:
    """Return the words of three letters or more without any accent that are left in a text: what nobody translated."""
    return set(re.findall(r"(?<![^\W\d_])[A-Za-z]{3,}(?![^\W\d_])", text))
