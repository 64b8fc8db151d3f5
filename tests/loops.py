"""Coroutines in tests that share their run with a browser, whose own loop stands in the main thread."""

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

Answer = TypeVar("Answer")


def finish(coroutine: Coroutine[Any, Any, Answer]) -> Answer:
    """Run ``coroutine`` to its end in a thread and a loop of its own."""
    with ThreadPoolExecutor(max_workers=1) as pool:
        return pool.submit(asyncio.run, coroutine).result()
