"""The text of a scene file, changed value by value; comments and layout stay as their writer left them."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.message import message
from trimwright.model.scene.draft import Change
from trimwright.model.scene.tables import tables_in

Path = Sequence[str | int]
"""Where a value stands: the names of its tables, and its own; items of a list counted from 0."""

ITSELF = "value"
"""The key under which a limit's bare number stands, once it is a table."""


class EditError(TrimwrightError):
    """Something asked for that this scene, or its text, cannot take."""


def value_at(tables: Mapping[str, Any], path: Path) -> Any:
    """Return the value at ``path``, None where there is none; a bare limit is the value of its table."""
    at: Any = tables
    for place, name in enumerate(path):
        if isinstance(at, Mapping):
            at = at.get(name)
        elif isinstance(at, Sequence) and isinstance(name, int):
            at = at[name] if name < len(at) else None
        elif place == len(path) - 1 and name == ITSELF:
            return at
        else:
            return None
    return at.get(ITSELF) if isinstance(at, Mapping) and path and path[-1] == ITSELF else at


def with_value(text: str, path: Path, value: Any) -> str:
    """Return ``text`` with ``value`` at ``path``; None takes the key away.

    Raises:
        EditError: The text is no TOML, or is laid out so that the key cannot be put into it.
    """
    try:
        document = tomlkit.parse(text)
        table = _table_for(document, path[:-1], value is not None)
        if table is not None:
            if value is None:
                table.pop(path[-1], None)
            else:
                table[path[-1]] = _item(value)
        new = tomlkit.dumps(document)
        came = value_at(tomllib.loads(new), path)
    except (TOMLKitError, ValueError, KeyError, TypeError, AttributeError) as error:
        raise _refused(path) from error
    if came != value:
        raise _refused(path)
    return new


def require_toml(text: str) -> None:
    """Raise the problem of a text that is no TOML at all; all else can be put right in the form."""
    tables_in(text, "")


def with_changes(text: str, changes: Iterable[Change]) -> str:
    """Return ``text`` with changes made in it, one after the other.

    Raises:
        EditError: The text is no TOML, or is laid out so that one of them cannot be made in it.
    """
    for change in changes:
        text = with_value(text, change.key, change.value)
    return text


def _item(value: Any) -> Any:
    """Return a value as it is written in one line, lists and tables in it too."""
    if isinstance(value, Mapping):
        table = tomlkit.inline_table()
        for name, one in value.items():
            table.append(name, _item(one))
        return table
    if not isinstance(value, list):
        return value
    array = tomlkit.array()
    for one in value:
        array.append(_item(one))
    return array


def _refused(path: Path) -> EditError:
    """Return what says that a value cannot be put at ``path``."""
    return EditError(Problem(message("cannot be put into this text; change the text itself"), tuple(path)))


def _table_for(document: Any, names: Path, wanted: bool) -> Any:
    """Return the table called ``names``; one that is missing is made if ``wanted``, else the answer is None."""
    table = document
    for place, name in enumerate(names):
        inner = table[name] if isinstance(name, int) else table.get(name)
        if not isinstance(inner, Mapping | list):
            if not wanted:
                return None
            bare = inner
            deep = place > 0 and isinstance(table, tomlkit.items.InlineTable)
            inner = tomlkit.inline_table() if deep or _is_limit(bare) else tomlkit.table()
            if _is_limit(bare):
                inner[ITSELF] = bare
            table[name] = inner
            inner = table[name]
        table = inner
    return table


def _is_limit(bare: object) -> bool:
    """Return whether a bare value stands for a table with a value of its own."""
    return bare is not None and not isinstance(bare, bool)
