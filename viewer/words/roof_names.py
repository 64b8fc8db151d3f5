"""The words that names of faces and edges are made of: names stay as a scene has them, and these say what they mean."""

from __future__ import annotations

import re
from collections.abc import Iterable

from trimwright.model.message import Language, Message, message

from .speaker import Speaker

WORDS: tuple[Message, ...] = (
    message("high edge"),
    message("front"),
    message("back"),
    message("left"),
    message("right"),
    message("end"),
    message("side"),
    message("eave"),
    message("rake"),
    message("ridge"),
    message("hip"),
    message("valley"),
    message("break"),
    message("porch"),
)
"""As `trimwright.model.roof.names` puts them together."""

_WORD = re.compile(rf"\b({'|'.join(word.text for word in WORDS)})\b")


def named(name: str, say: Speaker) -> str:
    """Return the name of a face or an edge, behind it what its words are in the reader's languages.

    Example:
        In Spanish, ``front eave (frente alero)``; in English, ``front eave``.
    """
    told = (_said_in(name, language) for language in (say.language, *say.beside))
    beside = [words for words in dict.fromkeys(told) if words != name]
    return f"{name} ({', '.join(beside)})" if beside else name


def _said_in(name: str, language: Language) -> str:
    """Return a name with each of its words in a language; what explains a word in brackets is left out."""
    return _WORD.sub(lambda word: language.sentence(word[0]).partition(" (")[0], name)


def words_in(names: Iterable[str], say: Speaker) -> tuple[Message, ...]:
    """Return the words that stand in some names, each with what it is in the reader's language; none in English."""
    spoken = " ".join(names)
    found = [word for word in WORDS if re.search(rf"\b{word.text}\b", spoken)]
    return tuple(
        message("{name}: {word}", name=word.text, word=word) for word in found if say(word) != word.text
    )
