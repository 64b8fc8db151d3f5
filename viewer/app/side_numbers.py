"""What a scene says of the sides of its outline by number, when their numbers change."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from typing import Any

from .scene_text import value_at, with_value

Renumber = Callable[[int], int | None]
"""What number a side has afterwards; None for one that is no more."""

NAMES = re.compile(r"(?<!porch )(?<!diagonal )(?<=[a-z] |\d-)\d+")
"""Numbers of sides in the names of edges, faces and diagonals; not those by which edges of one name are told apart."""


def renumbered(text: str, number: Renumber) -> str:
    """Return a text with what it says of sides at their new numbers."""
    sides = value_at(tomllib.loads(text), ("roof", "sides"))
    if isinstance(sides, Mapping):
        after = {n: one for old, one in sides.items() for n in [_after(old, number)] if n is not None}
        text = _with_sides(text, after) if after != sides else text
    return _renamed(_with_porches(text, number), number)


def with_side(text: str, number: int, table: Mapping[str, Any]) -> str:
    """Return a text in which a side has something of its own."""
    sides = value_at(tomllib.loads(text), ("roof", "sides"))
    return _with_sides(text, {**(sides if isinstance(sides, Mapping) else {}), str(number): table})


def _with_sides(text: str, sides: Mapping[str, Any]) -> str:
    """Return a text with what sides have of their own, by number."""
    text = with_value(text, ("roof", "sides"), None)
    ordered = dict(sorted(sides.items(), key=lambda one: (len(one[0]), one[0])))
    return with_value(text, ("roof", "sides"), ordered) if ordered else text


def _after(old: str, number: Renumber) -> str | None:
    """Return the key of a side afterwards; what is no number stays."""
    if not old.isdecimal():
        return old
    new = number(int(old))
    return None if new is None else str(new)


def _with_porches(text: str, number: Renumber) -> str:
    """Return a text with its porches at the new numbers of their sides; those of a side that is gone are gone."""
    porches = value_at(tomllib.loads(text), ("roof", "porch"))
    if not isinstance(porches, list):
        return text
    sides = [one.get("side") if isinstance(one, Mapping) else None for one in porches]
    after = [number(side) if isinstance(side, int) else side for side in sides]
    if None in after:
        kept = [{**one, "side": new} for one, new in zip(porches, after, strict=True) if new is not None]
        return with_value(text, ("roof", "porch"), kept or None)
    for k, (old, new) in enumerate(zip(sides, after, strict=True)):
        if old != new:
            text = with_value(text, ("roof", "porch", k, "side"), new)
    return text


def _renamed(text: str, number: Renumber) -> str:
    """Return a text with the names of edges by the new numbers; of an edge that is gone nothing is said any more."""
    for table in (("run",), ("roof", "taped")):
        named = value_at(tomllib.loads(text), table)
        if not isinstance(named, Mapping):
            continue
        changed = {old: new for old in named for new in [_name(old, number)] if new != old}
        for old in changed:
            text = with_value(text, (*table, old), None)
        for old, new in changed.items():
            if new is not None:
                text = with_value(text, (*table, new), named[old])
    points = value_at(tomllib.loads(text), ("photo", "point"))
    for k, point in enumerate(points if isinstance(points, list) else ()):
        names = [_name(str(old), number) or str(old) for old in point.get("corner", ())]
        if names != point.get("corner"):
            text = with_value(text, ("photo", "point", k, "corner"), names)
    return text


def _name(old: str, number: Renumber) -> str | None:
    """Return the name of an edge by the new numbers of its sides, None where a side of it is gone."""
    new = {found: number(int(found)) for found in NAMES.findall(old)}
    if None in new.values():
        return None
    return NAMES.sub(lambda found: str(new[found.group()]), old)
