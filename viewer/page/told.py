"""Words as the page takes them: messages are said, text stands as it is."""

from __future__ import annotations

from trimwright.model.message import Message

from ..words.speaker import Speaker


def told(say: Speaker, words: str | Message) -> str:
    """Return a message in words; text that somebody else has put into words already, or typed, stays as it is."""
    return words if isinstance(words, str) else say(words)
