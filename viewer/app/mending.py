"""Taking what can be taken: a text in which values that cannot be read are put back to what they were."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable

from trimwright.model.errors import Problem

from .scene_text import EditError, value_at, with_value


def mended(text: str, problems: Iterable[Problem], before: str) -> str | None:
    """Return ``text`` with each value that has a problem as it was in ``before``, or left out where it was not there.

    Args:
        text: The text of a scene.
        problems: What keeps it from being read.
        before: A text that could be read.

    Returns:
        The text; None where a problem is about no single value, so that nothing can be put back.
    """
    good = tomllib.loads(before)
    for problem in problems:
        path = _value_of(problem)
        if not path:
            return None
        try:
            text = with_value(text, path, value_at(good, path))
        except EditError:
            return None
    return text


def _value_of(problem: Problem) -> tuple[str, ...]:
    """Return the path of the value that a problem is about; of an item of a list, that of the list."""
    names: list[str] = []
    for part in problem.key:
        if isinstance(part, int):
            break
        names.append(part)
    return tuple(names)
