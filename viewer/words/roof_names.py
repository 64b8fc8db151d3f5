"""The words that names of faces and edges are made of: names stay as a scene has them, and these say what they mean."""

from __future__ import annotations

import re
from collections.abc import Iterable

from trimwright.model.message import Message, message

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
)
"""As `trimwright.model.roof.names` puts them together."""


def words_in(names: Iterable[str], say: Speaker) -> tuple[Message, ...]:
    """Return the words that stand in some names, each with what it is in the reader's language; none in English."""
    spoken = " ".join(names)
    found = [word for word in WORDS if re.search(rf"\b{word.text}\b", spoken)]
    return tuple(
        message("{name}: {word}", name=word.text, word=word) for word in found if say(word) != word.text
    )
