"""What was left unfinished: the working copies that are more than the scene of their name, each told in a few words."""

from __future__ import annotations

from collections.abc import Set
from functools import lru_cache
from typing import Any

from trimwright.model.errors import SceneError
from trimwright.model.scene.tables import tables_in

from .beginnings import beginnings
from .fields import shown
from .folder import Folder, FolderError
from .scene_text import value_at

MOST = 12
"""Copies that are offered; they are many enough to choose from."""


def unfinished_in(folder: Folder, but: Set[str]) -> list[dict[str, Any]]:
    """Return the working copies that somebody has changed and left, the latest first, one of those that are alike.

    Args:
        folder: Where they lie.
        but: Keys of those that somebody is at.
    """
    result: list[dict[str, Any]] = []
    seen: set[tuple[str, str]] = set()
    for copy in folder.copies():
        if copy.key in but:
            continue
        try:
            text = folder.kept(copy)
        except FolderError:
            text = None  # it is offered all the same, to be thrown away
        if text is not None and (text == _plain(folder, copy.name) or (copy.name, text) in seen):
            continue
        if text is not None:
            seen.add((copy.name, text))
        gist = "" if text is None else gist_of(text)
        result.append({"key": copy.key, "name": copy.name, "changed": copy.changed, "gist": gist})
        if len(result) == MOST:
            break
    return result


def _plain(folder: Folder, name: str) -> str | None:
    """Return the text that nobody has changed under a name."""
    try:
        return folder.read(name) if folder.has(name) else beginnings().get(name)
    except FolderError:
        return None


@lru_cache(64)
def gist_of(text: str) -> str:
    """Return the form and the sizes that a text gives its roof: ``hip, 36' x 24', 6/12``."""
    try:
        tables = tables_in(text)
    except SceneError:
        return ""
    form, length, width, pitch = (
        shown(value_at(tables, ("roof", name))) for name in ("form", "length", "width", "pitch")
    )
    size = " x ".join(one for one in (length, width) if one)
    return ", ".join(one[:40] for one in (form, size, pitch) if one)
