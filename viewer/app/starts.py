"""Where full lengths begin: what each way comes to, side by side, and taking one for every run."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from typing import Any

from trimwright.model.message import message
from trimwright.model.scene.read import scene_from

from ..report.starts import SET_ASIDE, layouts_by_start, placed_by_hand, starts_table
from ..words.speaker import speaker_of
from .form_sections import STARTS, trims_of
from .results import LIVE
from .scene_text import EditError, value_at, with_value

Values = dict[str, Any]


def starts_of(text: str) -> Values:
    """Return the starting rules side by side: headings, and a row for each rule.

    Raises:
        TrimwrightError: The text cannot be read, or no rule makes a layout.
    """
    scene = scene_from(text, "")
    say = speaker_of(scene).alone()
    layouts = layouts_by_start(scene, LIVE)
    table = starts_table(layouts)
    columns: Sequence[Sequence[str]] = [[str(cell) for cell in column.cells] for column in table.columns[1:]]
    names = [say(STARTS[start]) for start in STARTS if start in layouts]
    by_hand = placed_by_hand(scene)
    return {
        "starts": [start for start in STARTS if start in layouts],
        "fields": [str(column.header) for column in table.columns],
        "rows": [list(row) for row in zip(names, *columns, strict=True)],
        "note": say(SET_ASIDE) if by_hand else "",
    }


def with_start(text: str, start: str) -> str:
    """Return ``text`` with every run begun by the rule ``start``.

    Raises:
        TrimwrightError: There is no such rule, or the text cannot take it.
    """
    if start not in STARTS:
        raise EditError(message("there is no such starting rule"))
    tables = tomllib.loads(text)
    form = str(value_at(tables, ("roof", "form")))
    for kind in trims_of(form):
        if value_at(tables, ("trim", kind)) is not False:
            text = with_value(text, ("trim", kind, "start"), start)
    runs = value_at(tables, ("run",))
    for name in runs if isinstance(runs, Mapping) else ():
        if value_at(tables, ("run", name, "start")) is not None:
            text = with_value(text, ("run", name, "start"), None)
    return text
