"""Progress on a terminal while a command works; silence when nobody watches."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from rich.progress import BarColumn, Progress, TaskID, TextColumn

from ..report.tables import console


class Steps:
    """What is being done now, and how much of it is done."""

    def __init__(self, bar: Progress, task: TaskID) -> None:
        """Show steps on ``bar``."""
        self._bar, self._task = bar, task

    def now(self, what: str) -> None:
        """Say what begins; how long it takes is unknown."""
        self._bar.update(self._task, description=what, total=None, completed=0)

    def part(self, what: str, number: int, total: int) -> None:
        """Say that ``what`` begins, part ``number`` of ``total``."""
        self._bar.update(self._task, description=what, total=total, completed=number - 1)


@contextmanager
def steps_shown() -> Iterator[Steps]:
    """Show steps on standard error while the block runs, if it is a terminal; they leave no trace."""
    to = console(error=True)
    columns = (BarColumn(bar_width=24), TextColumn("{task.description}"))
    with Progress(*columns, console=to, transient=True, disable=not to.is_terminal) as bar:
        yield Steps(bar, bar.add_task("", total=None))
