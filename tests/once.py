"""Making something once for all tests of a process, whether an argument is given or left to its default."""

from collections.abc import Callable
from functools import cache, wraps
from inspect import signature
from typing import ParamSpec, TypeVar

Given = ParamSpec("Given")
Made = TypeVar("Made")


def once(make: Callable[Given, Made]) -> Callable[Given, Made]:
    """Keep what a function returns; `functools.cache` alone makes it anew for a default that is written out."""
    kept, takes = cache(make), signature(make)

    @wraps(make)
    def made(*args: Given.args, **named: Given.kwargs) -> Made:
        given = takes.bind(*args, **named)
        given.apply_defaults()
        return kept(*given.args, **given.kwargs)

    return made
