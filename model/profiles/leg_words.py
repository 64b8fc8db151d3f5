"""What the legs of the catalogue's profiles are called in a sentence."""

from __future__ import annotations

from ..message import Message, Value, message

_WORDS: dict[str, Message] = {
    words.text: words
    for words in (
        message("top"),
        message("top hem"),
        message("return"),
        message("face"),
        message("apron"),
        message("sole"),
        message("kick"),
        message("hem"),
        message("left hem"),
        message("left wing"),
        message("left rib"),
        message("right rib"),
        message("right wing"),
        message("right hem"),
    )
}


def leg_words(name: str) -> Value:
    """Return what a leg is called: a word of the language, or the name itself where a scene gave it."""
    return _WORDS.get(name, name)
