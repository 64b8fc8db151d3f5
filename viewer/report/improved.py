"""What a search for a better layout came to: before and after in a table, and what was changed."""

from __future__ import annotations

from collections.abc import Iterator

from rich import box
from rich.table import Table

from trimwright.model.improve.score import Score
from trimwright.model.improve.search import Improved
from trimwright.model.message import Expanse, Message, message

from ..words.speaker import Speaker
from .changes import change_told

PARTS: dict[str, Message] = {
    "errors": message("errors"),
    "warnings": message("warnings"),
    "joints": message("joints in sight"),
    "metal": message("metal bought"),
    "screws": message("screws"),
}
"""The parts of a score, in the order in which they count."""


def improved_table(found: Improved, say: Speaker) -> Table:
    """Return each part of the score before and after, and whether it is proved that none is better."""
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False)
    table.add_column("")
    for name in (say("before"), say("after")):
        table.add_column(name, justify="right")
    table.add_column(say("how sure"))
    for name, words in PARTS.items():
        sure = say("proved best") if name in found.best else say("best found")
        cells = (_cell(found.before.score, name, say), _cell(found.after.score, name, say))
        table.add_row(say(words), *cells, sure)
    return table


def told_changes(found: Improved, say: Speaker) -> Iterator[str]:
    """Yield what was changed, a line each, and how many layouts were looked at."""
    for change in found.changes:
        yield say(change_told(change))
    if found.changes:
        yield say.counted("Found among {count} layout.", "Found among {count} layouts.", count=found.tried)
    else:
        yield say.counted(
            "Nothing better among {count} layout.", "Nothing better among {count} layouts.", count=found.tried
        )


def _cell(score: Score, name: str, say: Speaker) -> str:
    if name != "metal":
        return str(getattr(score, name))
    return say("{area}", area=Expanse(score.metal, decimals=1))
