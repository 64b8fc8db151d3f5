"""Changes of a scene as they are read and typed: word for word what its file then has."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from typing import Any

from trimwright.model.checks.record import Finding
from trimwright.model.errors import Key
from trimwright.model.message import Listed, Message, message
from trimwright.model.scene.draft import Change


def remedy_told(finding: Finding) -> Message:
    """Return what to do about a finding: on the roof or in the shop, and the change of the scene that was tried."""
    if finding.change is None:
        return finding.remedy
    return message(
        "{remedy} In the scene, tried: {changes}.",
        remedy=finding.remedy,
        changes=changes_told(finding.change),
    )


def changes_told(changes: Iterable[Change]) -> Listed:
    """Return changes in a row."""
    return Listed(tuple(change_told(change) for change in changes))


def change_told(change: Change) -> Message:
    """Return a change: what a key is to be, or that it is to be left out."""
    if change.value is None:
        return message("leave {key} out", key=_key(change.key))
    return message("{key} = {value}", key=_key(change.key), value=written(change.value))


def _key(key: Key) -> str | Message:
    """Return a place in a scene as TOML writes it; items of a list are numbered from 1."""
    words: str | Message = ""
    for part in key:
        if isinstance(part, int):
            words = message("{list} no. {number}", list=words, number=part + 1)
            continue
        name = part if re.fullmatch(r"[A-Za-z0-9_-]+", part) else written(part)
        words = message("{table}.{key}", table=words, key=name) if words else name
    return words


def written(value: Any) -> str:
    """Return a value as TOML writes it, in one line.

    Example:
        >>> written(["10' 6 in", {"length": "7 ft", "sealed": True}])
        '["10\' 6 in", { length = "7 ft", sealed = true }]'
    """
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{name} = {written(one)}" for name, one in value.items()) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(written, value)) + "]"
    return json.dumps(value, ensure_ascii=False)
