"""Ends: what one end of a piece meets, in the words of every face."""

from __future__ import annotations

from collections.abc import Callable

from trimwright.model.joints.end import End


def meets(end: End, show: Callable[[float], str]) -> str:
    """Return what an end meets and how it lies there: ``lap of 4" over E1-1``, ``eave-rake over E1-1``.

    Args:
        end: The end.
        show: Writes a length.
    """
    name = end.kind.name if end.lap is None else f"{end.kind.name} of {show(end.lap)}"
    return f"{name} {end.lies or 'with'} {' and '.join(end.others)}" if end.others else name
