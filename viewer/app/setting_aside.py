"""Setting aside: what a new form or a new metal does not take is put away, and comes back with the one before."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from trimwright.model.errors import Key, Problem, SceneError
from trimwright.model.scene.read import scene_from

from .new_form import begun
from .outline_fields import BY_SIDE, PORCHED
from .scene_text import EditError, value_at, with_value

Place = Key

OF_METAL: tuple[Place, ...] = (
    ("metal", "thickness"),
    ("metal", "color"),
    ("metal", "radius"),
    ("colors", "trim"),
    ("colors", "panels"),
    ("colors", "coat"),
    ("screws", "kind"),
)
"""What belongs to one metal, and to no other."""

FORM: Place = ("roof", "form")

OF_FORM: tuple[Place, ...] = (("roof", "taped"), ("roof", "sides"), ("roof", "porch"))
"""What names sides, edges or diagonals of one form, and means nothing on another."""

DRAWN: tuple[Place, ...] = (("roof", "length"), ("roof", "width"), ("roof", "wing"))
"""What an outline says in its corners: nobody misses it there."""

RUNS: Place = ("run",)
"""What is said of single runs: where edges are named by numbered sides, it goes with the form."""

CHOICES: dict[Place, tuple[Place, ...]] = {("metal", "kind"): OF_METAL, FORM: OF_FORM}
"""Fields whose choice decides what others may hold, with what always goes with it."""

ROUNDS = 4
"""How often it is looked whether all can be read: a value may hide another."""


@dataclass(slots=True)
class SetAside:
    """What was put away, by the field and the choice that it belongs to."""

    kept: dict[tuple[Place, str], dict[Place, Any]] = field(default_factory=dict)

    def chosen(self, text: str, path: Place, value: str) -> tuple[str, tuple[Place, ...]]:
        """Return ``text`` with another choice, and the places whose values were put away for it.

        Raises:
            EditError: The text cannot take the change.
        """
        before = value_at(tomllib.loads(text), path)
        new = with_value(text, path, value)
        if path not in CHOICES or value == before:
            return new, ()
        away: dict[Place, Any] = {}
        runs = (RUNS,) if path == FORM and (value in BY_SIDE or before in BY_SIDE) else ()
        for place in (*CHOICES[path], *runs):
            new = _put_away(new, place, away)
        old = {problem.key for problem in _problems(text)}
        for _ in range(ROUNDS):
            wrong = [_place(one, new) for one in _problems(new) if one.key not in old]
            found = [place for place in wrong if place is not None and place != path]
            for place in found:
                new = _put_away(new, place, away)
            if not found:
                break
        self.kept[path, str(before)] = away
        new = self._back(new, path, value)
        told = tuple(place for place in away if value != "outline" or place not in DRAWN)
        return begun(new, text) if path == FORM else new, told

    def _back(self, text: str, path: Place, value: str) -> str:
        """Return a text with what was put away for this choice earlier, where nothing else stands now."""
        for place, one in self.kept.pop((path, value), {}).items():
            if value_at(tomllib.loads(text), place) is None:
                try:
                    text = with_value(text, place, one)
                except EditError:
                    continue
        return text


def draws_itself(text: str) -> bool:
    """Return whether a house becomes an outline once it gets a porch: that needs sides with numbers."""
    return value_at(tomllib.loads(text), FORM) in PORCHED


def _put_away(text: str, place: Place, away: dict[Place, Any]) -> str:
    """Return a text without the value at a place, which goes to ``away``."""
    value = value_at(tomllib.loads(text), place)
    if value is None:
        return text
    away[place] = value
    return with_value(text, place, None)


def _problems(text: str) -> Iterable[Problem]:
    try:
        scene_from(text, "")
    except SceneError as error:
        return error.problems
    return ()


def _place(problem: Problem, text: str) -> Place | None:
    """Return where the value of a problem stands; None where there is none to put away, as where one is missing."""
    names: list[str] = []
    for part in problem.key:
        if isinstance(part, int):
            break
        names.append(part)
    place = tuple(names)
    return place if len(place) > 1 and value_at(tomllib.loads(text), place) is not None else None
