"""Progress on a terminal while a command works; silence when nobody watches."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from rich.progress import BarColumn, Progress, TaskID, TextColumn

from trimwright.model.message import Message

from ..report.tables import console
from ..words.speaker import Speaker
from .problems import speaker_in


class Steps:
    """What is being done now, and how much of it is done."""

    def __init__(self, bar: Progress, task: TaskID, say: Speaker) -> None:
        """Show steps on ``bar``."""
        self._bar, self._task, self._say = bar, task, say

    def now(self, what: Message) -> None:
        """Say what begins; how long it takes is unknown."""
        self._bar.update(self._task, description=self._say(what), total=None, completed=0)

    def part(self, what: Message, number: int, total: int) -> None:
        """Say that ``what`` begins, part ``number`` of ``total``."""
        self._bar.update(self._task, description=self._say(what), total=total, completed=number - 1)


@contextmanager
def steps_shown(scene: Path) -> Iterator[Steps]:
    """Show steps on standard error while the block runs, if it is a terminal; they leave no trace.

    They are told as the file of the scene asks for it, as far as it can be read.
    """
    to = console(error=True)
    columns = (BarColumn(bar_width=24), TextColumn("{task.description}"))
    with Progress(*columns, console=to, transient=True, disable=not to.is_terminal) as bar:
        yield Steps(bar, bar.add_task("", total=None), speaker_in(scene))
