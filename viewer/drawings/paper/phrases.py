"""Words that many pages use: hands, sides and ends, each in the reader's language."""

from __future__ import annotations

from trimwright.model.message import Message, message

HANDS: dict[str, Message] = {"left": message("left"), "right": message("right")}
"""Of a piece, in a table."""

SIDES = HANDS
"""Of the paper: where a low end lies, where a tape hooks on."""

HANDED: dict[str, Message] = {"left": message("left hand"), "right": message("right hand")}
"""Of a piece, beside a title."""

AT_END: dict[str, Message] = {"low": message("low"), "high": message("high")}
"""Of a piece, in a row of pieces."""
