"""Names of faces and edges, in the words of whoever reads them."""

from __future__ import annotations

from trimwright.model.message import Message
from trimwright.model.roof.name_words import name_words

from .speaker import Speaker


def named(name: str, say: Speaker) -> str:
    """Return what a face or an edge is called, by its name.

    Example:
        In Spanish, ``alero del frente`` for ``front eave``; in English, the name.
    """
    words = name_words(name)
    return say(words) if isinstance(words, Message) else name
