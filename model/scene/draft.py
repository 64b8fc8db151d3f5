"""A draft: a scene as the tables of its file, so that it can be changed key by key and read again."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..errors import Key
from .read import scene_of
from .schema import Scene


@dataclass(frozen=True, slots=True)
class Change:
    """A change of a scene.

    Attributes:
        key: Where.
        value: What stands there then, as TOML has it; None takes the key away.
    """

    key: Key
    value: Any


Changes = tuple[Change, ...]
"""Changes that belong together, made in their order."""


@dataclass(frozen=True, slots=True, eq=False)
class Draft:
    """The tables of a scene's file.

    Attributes:
        tables: As the file has them; nobody changes them.
        folder: Where the file is: files that the scene names are relative to it.
    """

    tables: Mapping[str, Any]
    folder: Path | None = None

    def scene(self) -> Scene:
        """Return the scene that the tables describe.

        Raises:
            SceneError: Every problem; without the file's name.
        """
        return scene_of(self.tables, "", self.folder)

    def changed(self, changes: Iterable[Change]) -> Draft:
        """Return the draft after ``changes``; one at a place that the tables do not have is passed over."""
        tables = deepcopy(dict(self.tables))
        for change in changes:
            _put(tables, change)
        return Draft(tables, self.folder)


def draft_of(text: str, folder: Path | None = None) -> Draft:
    """Return the draft of a text that has been read as a scene before."""
    return Draft(tomllib.loads(text), folder)


def _put(tables: dict[str, Any], change: Change) -> None:
    """Put a value where it belongs, in tables that are made for it."""
    at: Any = tables
    for name in change.key[:-1]:
        if isinstance(at, list):
            at = at[int(name)]
            continue
        if not isinstance(at.get(name), dict | list):
            if change.value is None:
                return
            at[name] = {}
        at = at[name]
    last = change.key[-1]
    if change.value is not None:
        at[last] = change.value
    else:
        at.pop(last, None)
