"""How long work takes, with nothing kept from the round before."""

import statistics
import sys
import time
from collections.abc import Callable

Work = Callable[[], object]


def forget() -> None:
    """Forget all that the model keeps of roofs laid out before; its own tables, read once, stay read."""
    for name, module in list(sys.modules.items()):
        if name.startswith("trimwright.model"):
            for thing in vars(module).values():
                if hasattr(thing, "cache_clear") and thing.__wrapped__.__code__.co_argcount:
                    thing.cache_clear()


def costs(works: list[Work], rounds: int) -> list[float]:
    """Return the processor time of each of some works, seconds: the median of rounds in which they take turns."""
    times: list[list[float]] = [[] for _ in works]
    for _ in range(rounds):
        for work, own in zip(works, times, strict=True):
            forget()
            start = time.process_time()
            work()
            own.append(time.process_time() - start)
    return [statistics.median(own) for own in times]


def cost(work: Work, rounds: int = 1) -> float:
    """Return the processor time of some work, seconds: the median of several rounds."""
    return costs([work], rounds)[0]
