"""A better layout, searched for while somebody waits: before and after side by side, and the changes that make it."""

from __future__ import annotations

import base64
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from trimwright.model.improve.search import improve
from trimwright.model.message import message
from trimwright.model.scene.draft import Changes, draft_of
from trimwright.model.scene.read import scene_from

from ..render.compare import compared
from ..render.png import png_of
from ..report.improved import improved_table, told_changes
from ..words.speaker import speaker_of
from .results import built
from .scene_text import EditError

SINCE = message("the scene has changed since; search again")
"""What is said where the answer would be about another text."""


@dataclass(frozen=True, slots=True)
class Better:
    """What a search came to.

    Attributes:
        text: The text that it was about.
        changes: What makes it better; none where nothing was found.
        told: The table, what was changed, and the picture of both, as the browser takes them.
    """

    text: str
    changes: Changes
    told: dict[str, Any]


def better_of(text: str, is_present: Callable[[str], bool]) -> Better:
    """Search for a better layout of the text of a scene.

    Args:
        text: The text.
        is_present: Whether a text is still the one that is worked on: the search ends once it is not.

    Raises:
        TrimwrightError: It cannot be read or built, is too large for a live view, or somebody has written on.
    """

    def go_on(_done: int, _most: int) -> None:
        if not is_present(text):
            raise EditError(SINCE)

    built(scene_from(text, ""))
    found = improve(draft_of(text), go_on)
    say = speaker_of(found.before.layout.scene).alone()
    table = improved_table(found, say)
    columns = [[str(cell) for cell in column.cells] for column in table.columns]
    layouts = {say("before"): found.before.layout, say("after"): found.after.layout}
    picture = base64.b64encode(png_of(compared(layouts))).decode("ascii") if found.changes else ""
    told = {
        "fields": [str(column.header) for column in table.columns],
        "rows": [list(row) for row in zip(*columns, strict=True)],
        "lines": list(told_changes(found, say)),
        "better": bool(found.changes),
        "picture": picture,
    }
    return Better(text, found.changes, told)
