"""Work that is asked for more often than it need be done."""

from __future__ import annotations

import asyncio
from collections.abc import Callable


class InTurn:
    """Does its work at once when asked, but not again before some time: those who ask meanwhile share one turn."""

    def __init__(self, work: Callable[[], None], apart: float) -> None:
        """Begin.

        Args:
            work: What is to be done.
            apart: Seconds between two turns.
        """
        self._work, self._apart = work, apart
        self._next = 0.0
        self._turn: asyncio.Task[None] | None = None

    async def soon(self) -> None:
        """Return when the work has been done after this was asked for."""
        if self._turn is None:
            self._turn = asyncio.create_task(self._take())
        await asyncio.shield(self._turn)

    async def _take(self) -> None:
        clock = asyncio.get_running_loop().time
        await asyncio.sleep(max(0.0, self._next - clock()))
        self._turn = None
        self._work()
        self._next = clock() + self._apart
