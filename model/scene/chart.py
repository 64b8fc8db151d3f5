"""The shop's color chart in a file of its own, beside the scene: CSV or XLSX with a row a color, or TOML."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from ..errors import Problem, SceneError
from ..measures import shorten
from ..message import Listed, Message, message
from .colors import as_color, plain_name
from .rows import bytes_in, columns_in, filled, in_line, read_rows

COLUMNS = ("name", "color", "gloss", "reflectance")
"""What the first row of a chart says; the last two may be left out."""

GLOSS = {"": "satin", "bare": "bare", "matt": "matt", "matte": "matt", "satin": "satin", "gloss": "gloss"}
"""What each word for the gloss of a paint means."""

MOST = 100
"""Colors of a chart, with those that stand in the scene."""

LONGEST = 60
"""Letters of a name."""


def with_chart(tables: Mapping[str, Any], folder: Path | None) -> Mapping[str, Any]:
    """Return a scene's tables with the colors of the file that ``[shop] colors`` names; its own come first.

    Args:
        tables: As they stand in the scene.
        folder: Where the scene is.

    Raises:
        SceneError: The file cannot be read or understood; every problem with the line where it is.
    """
    shop = tables.get("shop")
    file = shop.get("colors") if isinstance(shop, Mapping) else None
    own = shop.get("color", []) if isinstance(shop, Mapping) else None
    if not isinstance(file, str) or not file or not isinstance(shop, Mapping) or not isinstance(own, list):
        return tables
    names = {plain_name(str(one.get("name", "")).lower()) for one in own if isinstance(one, Mapping)}
    charted = [
        one for one in chart_in(Path(folder or "", file)) if plain_name(one["name"].lower()) not in names
    ]
    return {**tables, "shop": {**shop, "color": [*own, *charted]}}


def chart_in(path: Path) -> list[dict[str, Any]]:
    """Return the colors of a chart as tables of the scene.

    Raises:
        SceneError: The file cannot be read or understood; every problem with the line where it is.
    """
    rows = _tables_in(path) if path.suffix.lower() == ".toml" else _rows_in(path)
    colors: list[dict[str, Any]] = []
    lines: dict[str, int] = {}
    problems: list[Message] = []
    for number, cells in rows:
        if len(colors) == MOST:
            problems.append(in_line(number, message("more than {most} colors; leave some out", most=MOST)))
            break
        found = list(_wrong_in(cells))
        line = lines.setdefault(plain_name(cells.get("name", "").lower()), number)
        if line != number:
            told = message(
                "'{name}' stands in line {line} too; keep one of them", name=cells["name"], line=line
            )
            found.append(told)
        problems += [in_line(number, one) for one in found]
        if not found:
            colors.append(_color(cells))
    if problems:
        raise SceneError(*(Problem(problem, file=path.name) for problem in problems))
    return colors


def _rows_in(path: Path) -> Iterator[tuple[int, dict[str, str]]]:
    """Yield the colors of a CSV or XLSX file as cells by column, each with its line."""
    rows = filled(read_rows(path, SceneError))
    number, headings = next(rows, (1, []))
    places = columns_in(headings, COLUMNS, needed=2)
    if isinstance(places, Message):
        raise SceneError(Problem(in_line(number, places), file=path.name))
    for number, row in rows:
        yield number, {column: row[at] if at < len(row) else "" for column, at in places.items()}


def _tables_in(path: Path) -> Iterator[tuple[int, dict[str, str]]]:
    """Yield the colors of a TOML file, a table ``[[color]]`` each, as cells by column, each with its table's line."""
    try:
        text = bytes_in(path, SceneError).decode("utf-8-sig")
        tables = tomllib.loads(text).get("color")
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError) as error:
        told = message(
            "not TOML: {reason}; write a table [[color]] for each color", reason=shorten(str(error))
        )
        raise SceneError(Problem(told, file=path.name)) from None
    if not isinstance(tables, list) or not all(isinstance(one, Mapping) for one in tables):
        told = message("no colors in it; write a table [[color]] for each, with its name and color")
        raise SceneError(Problem(told, file=path.name))
    heads = [
        line
        for line, words in enumerate(text.splitlines(), 1)
        if words.replace(" ", "").startswith("[[color]]")
    ]
    if len(heads) != len(tables):
        heads = list(range(1, len(tables) + 1))
    for line, table in zip(heads, tables, strict=True):
        yield line, {str(key): str(value) for key, value in table.items()}


def _wrong_in(cells: Mapping[str, str]) -> Iterator[Message]:
    """Yield what is wrong with one color."""
    for key in cells.keys() - set(COLUMNS):
        yield message("{key}: no such key; there are {known}", key=key, known=Listed(COLUMNS, "comma"))
    name, share = cells.get("name", ""), _share(cells)
    if not name:
        yield message("name: it is missing; say what the shop calls the color")
    elif len(name) > LONGEST or not name.isprintable():
        yield message("name: {came} is no short plain text; give one", came=shorten(name))
    color = as_color(cells.get("color", ""), {})
    if isinstance(color, Message):
        yield message("color: {problem}", problem=color)
    if cells.get("gloss", "").lower() not in GLOSS:
        known = Listed(("bare", "matt", "satin", "gloss"), "or")
        yield message("gloss: {came} is not {known}", came=shorten(cells["gloss"]), known=known)
    if share is not None and not (share == 0 or 1 <= share <= 100):
        came = shorten(cells["reflectance"])
        yield message("reflectance: {came} is no percentage; give one from 0 to 100, such as 32", came=came)


def _share(cells: Mapping[str, str]) -> float | None:
    """Return the reflectance in percent; None where none is given, and -1 for what is no number."""
    text = cells.get("reflectance", "").removesuffix("%").strip()
    try:
        return float(text) if text else None
    except ValueError:
        return -1.0


def _color(cells: Mapping[str, str]) -> dict[str, Any]:
    """Return a color as a table of the scene."""
    share = _share(cells)
    return {
        "name": cells["name"],
        "color": cells["color"],
        "coat": GLOSS[cells.get("gloss", "").lower()],
        **({} if share is None else {"reflectance": share}),
    }
