"""The tables that the text of a scene has, once it is sure that parsing it takes neither long nor much."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from typing import Any

from ..errors import Problem, SceneError
from ..message import Message, message

LARGEST = 1_000_000
"""Bytes of a scene's text; the largest of the zoo has 4,000."""

MOST_VALUES = 20_000
"""Commas, equals signs and brackets, of which every value of a scene has at least one; the zoo's largest has 400."""

DEEPEST = 20
"""Tables in tables; a scene needs five."""

_DEEP_KEY = re.compile(rf"""(?<![\w-])(?:(?:"[^"\n]*+"|'[^'\n]*+'|[\w-]++)[ \t]*+\.[ \t]*+){{{DEEPEST}}}""")
"""Names joined by dots, more than a scene needs: a hundred thousand would take all memory there is."""


def tables_in(text: str, name: str = "scene") -> dict[str, Any]:
    """Return the tables of a text, which is counted over before it is parsed.

    Args:
        text: The text of a scene.
        name: What its file is called, for the problem.

    Raises:
        SceneError: It is no TOML, or holds more than any scene does.
    """
    told = _more_than_a_scene(text)
    if told is None:
        try:
            tables = tomllib.loads(text)
            if not _is_deeper(tables, DEEPEST):
                return tables
            told = _TOO_DEEP
        except tomllib.TOMLDecodeError as error:
            told = _no_toml(error)
        except ValueError:
            told = message("not TOML: a number of thousands of digits; give a measurement")
        except RecursionError:
            told = _TOO_DEEP
    raise SceneError(Problem(told, file=name)) from None


_TOO_DEEP = message("tables nested too deep; a scene needs five levels")


def _more_than_a_scene(text: str) -> Message | None:
    """Return what refuses a text that would take long to parse."""
    count = sum(map(text.count, ",=["))
    if count > MOST_VALUES:
        return message(
            "{count} values, and a scene has at most {most}; is this another file?",
            count=count,
            most=MOST_VALUES,
        )
    return _TOO_DEEP if _DEEP_KEY.search(text) else None


def _is_deeper(tables: Mapping[str, Any], most: int) -> bool:
    """Return whether tables and lists lie in each other more than ``most`` deep."""
    level: list[Any] = [tables]
    for _ in range(most):
        level = [
            inner
            for outer in level
            for inner in (outer.values() if isinstance(outer, dict) else outer)
            if isinstance(inner, dict | list)
        ]
        if not level:
            return False
    return True


def _no_toml(error: tomllib.TOMLDecodeError) -> Message:
    """Return what the parser says, with the place first; its own words are a programmer's, and English."""
    match = re.fullmatch(r"(.*) \(at (?:line (\d+), column (\d+)|(end of document))\)", str(error))
    if match is None:
        return message("not TOML: {what}", what=str(error))
    what = re.sub(r"\((?:'[^']*'(?:, |,)?)+\)", _as_table, match[1][:1].lower() + match[1][1:])
    if match[4]:
        return message("end of file: not TOML: {what}", what=what)
    return message(
        "line {line}, column {column}: not TOML: {what}", line=int(match[2]), column=int(match[3]), what=what
    )


def _as_table(names: re.Match[str]) -> str:
    """Return the parser's tuple of names as the table heading it stands for."""
    return "[" + ".".join(re.findall(r"'([^']*)'", names[0])) + "]"
