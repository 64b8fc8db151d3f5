"""What the legs of the catalogue's profiles are called in a sentence."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from ..message import Message, Value
from .catalogue import catalogue


@cache
def catalogue_legs() -> Mapping[str, Message]:
    """Return the word for each leg of the catalogue: its name there, which languages translate."""
    return {leg.name: Message(leg.name) for profile in catalogue().values() for leg in profile.legs}


def leg_words(name: str) -> Value:
    """Return what a leg is called: a word of the language, or the name itself where a scene gave it."""
    return catalogue_legs().get(name, name)
