"""What faces and edges are called in words: a name is a key of the scene, and stays as it is where it is typed.

A name is put together by `trimwright.model.roof.names`. It is told as a whole: languages order its words otherwise.
"""

from __future__ import annotations

import re

from ..message import Message

NAMES = (
    Message("front"),
    Message("back"),
    Message("left"),
    Message("right"),
    Message("front eave"),
    Message("back eave"),
    Message("left eave"),
    Message("right eave"),
    Message("front high edge"),
    Message("back high edge"),
    Message("left high edge"),
    Message("right high edge"),
    Message("front break"),
    Message("back break"),
    Message("left break"),
    Message("right break"),
    Message("front-end left rake"),
    Message("front-end right rake"),
    Message("back-end left rake"),
    Message("back-end right rake"),
    Message("left-end left rake"),
    Message("left-end right rake"),
    Message("right-end left rake"),
    Message("right-end right rake"),
    Message("front-left hip"),
    Message("front-right hip"),
    Message("back-left hip"),
    Message("back-right hip"),
    Message("front-left valley"),
    Message("front-right valley"),
    Message("back-left valley"),
    Message("back-right valley"),
    Message("ridge"),
    Message("side {number}"),
    Message("eave {number}"),
    Message("high edge {number}"),
    Message("left rake {number}"),
    Message("right rake {number}"),
    Message("ridge {one}-{two}"),
    Message("hip {one}-{two}"),
    Message("valley {one}-{two}"),
    Message("break {one}-{two}"),
    Message("porch {number} eave"),
    Message("porch {number} left rake"),
    Message("porch {number} right rake"),
    Message("{face} eave"),
    Message("{name} {number}"),
)
"""Whole names; where several would do, the first does."""

_NUMBER = r"\d+"
_PLACES = {"name": r".+", "face": r".+"}
"""What may stand at a place of a name, if it is no number: another name."""


def name_words(name: str) -> Message | str:
    """Return what a face or an edge is called in words; a name of nobody's making stays as it is.

    Example:
        >>> str(name_words("right-end left rake 2"))
        'right-end left rake 2'
    """
    for words, form in _FORMS:
        if found := form.fullmatch(name):
            parts = found.groupdict()
            values = {place: name_words(part) if place in _PLACES else part for place, part in parts.items()}
            if not any(values[place] == part for place, part in parts.items() if place in _PLACES):
                return words.filled(**values)
    return name


def _form_of(words: Message) -> re.Pattern[str]:
    """Return what a name looks like that is told in these words."""
    return re.compile(re.sub(r"{(\w+)}", _place, words.text))


def _place(found: re.Match[str]) -> str:
    """Return what may stand at a place of a name."""
    return f"(?P<{found[1]}>{_PLACES.get(found[1], _NUMBER)})"


_FORMS = tuple((words, _form_of(words)) for words in NAMES)
