"""Read a scene: from a file or a text to a `Scene`, or to every problem in it, one line each."""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from ..errors import SceneError
from ..trim_kinds import KINDS
from ..units import INCHES, shorten
from .schema import Scene

LARGEST = 1_000_000
"""Bytes; the largest scene of the zoo has 4,000."""

MOST_PROBLEMS = 100
"""Lines; more than anybody reads, and few enough to write at once whatever the file holds."""

Loc = tuple[str | int, ...]


def read_scene(path: Path | str) -> Scene:
    """Return the scene in the TOML file at ``path``.

    Raises:
        SceneError: The file cannot be read or understood; every problem, one line each.
    """
    path = Path(path)
    try:
        if path.is_dir():
            raise SceneError([f"{path}: this is a folder; give a scene file, such as boat-shed.toml"])
        if path.is_fifo():
            raise SceneError([f"{path}: this is a pipe; save the scene to a file and give that"])
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except FileNotFoundError:
        raise SceneError([f"{path}: there is no such file; give the path of a scene file"]) from None
    except (OSError, ValueError) as error:
        raise SceneError(
            [f"{shorten(str(path))}: cannot be read: {getattr(error, 'strerror', None) or error}"]
        ) from None
    if len(raw) > LARGEST:
        raise SceneError([f"{path}: more than {LARGEST:,} bytes; a scene is a short text file"])
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise SceneError([f"{path}: line {line}: not UTF-8 text; save the file as UTF-8"]) from None
    return scene_from(text, path.name)


def scene_from(text: str, name: str = "scene") -> Scene:
    """Return the scene written in ``text``; ``name`` begins each problem's line.

    Raises:
        SceneError: Every problem, one line each.
    """
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise SceneError([f"{name}: {_toml_problem(error)}"]) from None
    except ValueError:
        raise SceneError([f"{name}: not TOML: a number of thousands of digits; give a measurement"]) from None
    except RecursionError:
        raise SceneError([f"{name}: tables nested too deep; a scene needs five levels"]) from None
    return scene_of(raw, name)


def scene_of(raw: Mapping[str, Any], name: str = "scene") -> Scene:
    """Return the scene that the parsed tables ``raw`` describe.

    Raises:
        SceneError: Every problem, one line each.
    """
    unit = raw.get("unit", "in")
    context = {"unit": unit if isinstance(unit, str) and unit in INCHES else "in"}
    try:
        return Scene.model_validate(raw, context=context)
    except ValidationError as error:
        details = _without_echoes(error.errors(include_url=False))
    problems = dict.fromkeys(_line(name, raw, detail) for detail in details[:MOST_PROBLEMS])
    more = len(details) - MOST_PROBLEMS
    raise SceneError([*problems, *([f"{name}: and {more:,} problems more"] if more > 0 else [])])


def _without_echoes(details: list[ErrorDetails]) -> list[ErrorDetails]:
    """Return the problems without those that only follow from another: a list is short once its items are refused."""
    places = [detail["loc"] for detail in details]
    return [
        one
        for one in details
        if one["type"] != "default_factory_not_called"
        and not (
            one["type"] == "too_short"
            and any(
                len(place) > len(one["loc"]) and place[: len(one["loc"])] == one["loc"] for place in places
            )
        )
    ]


def _toml_problem(error: tomllib.TOMLDecodeError) -> str:
    """Return the parser's sentence with the place first."""
    match = re.fullmatch(r"(.*) \(at (?:line (\d+), column (\d+)|(end of document))\)", str(error))
    if match is None:
        return f"not TOML: {error}"
    what = re.sub(r"\((?:'[^']*'(?:, |,)?)+\)", _as_table, match[1][:1].lower() + match[1][1:])
    place = "end of file" if match[4] else f"line {match[2]}, column {match[3]}"
    return f"{place}: not TOML: {what}"


def _as_table(names: re.Match[str]) -> str:
    """Return the parser's tuple of names as the table heading it stands for."""
    return "[" + ".".join(re.findall(r"'([^']*)'", names[0])) + "]"


def _line(name: str, raw: Mapping[str, Any], detail: ErrorDetails) -> str:
    """Return one problem as ``file: key.path: what came and what is allowed``."""
    loc = _loc_in(raw, detail)
    return ": ".join(part for part in (name, _path(loc), _sentence(raw, loc, detail)) if part)


def _loc_in(raw: object, detail: ErrorDetails) -> Loc:
    """Return the place of a problem in the file: without the tags that a choice of tables adds to it."""
    kept: list[str | int] = []
    at: Any = raw
    for number, part in enumerate(detail["loc"]):
        last = number == len(detail["loc"]) - 1
        inside = (isinstance(at, Mapping) and part in at) or (
            isinstance(at, list | tuple) and isinstance(part, int) and part < len(at)
        )
        if inside:
            at = at[part]
        if inside or (last and detail["type"] == "missing"):
            kept.append(part)
    return tuple(kept)


def _step(part: str | int) -> str:
    """Return one step of a key path: quoted where TOML would quote it, list items counted from 1."""
    if isinstance(part, int):
        return f" no. {part + 1}"
    return f".{part}" if re.fullmatch(r"[A-Za-z0-9_-]+", part) else f".{shorten(part)}"


def _sentence(raw: Mapping[str, Any], loc: Loc, detail: ErrorDetails) -> str:
    """Return what came, what is allowed and the way out."""
    came, context, kind = shorten(detail["input"]), detail.get("ctx", {}), detail["type"]
    if kind == "problem":
        return detail["msg"]
    if kind == "extra_forbidden":
        return _unknown(raw, tuple(part for part in detail["loc"] if part != "[key]"))
    if kind == "missing":
        return f"missing; {'this table' if len(loc) > 1 else 'a scene'} needs it"
    if kind in ("tuple_type", "list_type"):
        if isinstance(detail["input"], Mapping):
            return f"one table stands where a list is wanted; write [[{_path(loc)}]]"
        return f"{came} is not a list; write [ ... ]"
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return f"{came} is not a table; write its keys under [{_path(loc)}]"
    if kind in _SENTENCES:
        values = {name: _plainly(value) for name, value in context.items()}
        return _SENTENCES[kind].format(came=came, **values)
    return f"{came}: {detail['msg'][:1].lower()}{detail['msg'][1:]}"


_SENTENCES = {
    "literal_error": "{came} is not one of {expected}",
    "union_tag_invalid": 'form "{tag}" is not one of {expected_tags}',
    "union_tag_not_found": 'form is missing; give form = "gable", "hip" or "shed"',
    "string_type": "{came} is not text; give text in quotation marks",
    "string_too_short": "empty; give some text",
    "string_too_long": "too long; give at most {max_length} characters",
    "bool_type": "{came} is neither true nor false; give one of them",
    "float_type": "{came} is not a number; give one without a unit",
    "float_parsing": "{came} is not a number; give one without a unit",
    "finite_number": "{came} is not a number; give a finite one",
    "greater_than_equal": "{came} is too small; give {ge} or more",
    "less_than_equal": "{came} is too large; give {le} or less",
    "too_short": "too few; give at least {min_length}, or leave the key out",
    "too_long": "too many; give at most {max_length}",
}
"""What pydantic's own errors say here, by their type."""


def _plainly(value: object) -> str:
    """Return a bound or a list of choices as a scene would write it."""
    return f"{value:g}" if isinstance(value, float) else str(value).replace("'", '"')


def _path(loc: Loc) -> str:
    """Return a place as its key path; list items counted from 1."""
    return "".join(_step(part) for part in loc).lstrip(".")


def _unknown(raw: Mapping[str, Any], loc: Loc) -> str:
    """Return what to do about a key that its table does not know: where it belongs, or which one is near."""
    key, known = str(loc[-1]), _keys_at(loc[:-1])
    if home := _home(key, raw):
        return f"no such key here; it belongs {home}"
    near = difflib.get_close_matches(key, known, n=1, cutoff=0.6)
    return f"no such key; did you mean {near[0]}?" if near else f"no such key; there are {', '.join(known)}"


def _home(key: str, raw: Mapping[str, Any]) -> str | None:
    """Return the table that knows ``key``, as a person would look for it."""
    if key in Scene.model_fields:
        return "at the top, above the first table"
    roof = raw.get("roof")
    form = str(roof.get("form")) if isinstance(roof, Mapping) else ""
    tables = [
        table
        for table, field in Scene.model_fields.items()
        if _models_in(field.annotation) and get_origin(field.annotation) is not dict
    ]
    for table in tables:
        if key in _keys_at((table, form if table == "roof" else "")):
            return f"under [{table}]"
    for table in (*tables, "trim"):
        for inner in _keys_at((table,)):
            if key in _keys_at((table, inner)) and key not in _keys_at((table,)):
                return f"under [{table}.{inner}]"
    forms = _models_in(_annotation(Scene, "roof"))
    owners = [get_args(_annotation(model, "form"))[0] for model in forms if key in model.model_fields]
    return f'to form = "{owners[0]}"' if owners else None


def _keys_at(loc: Loc) -> list[str]:
    """Return the keys that the table at ``loc`` knows."""
    if loc == ("trim",):
        return list(KINDS)
    models: list[type[BaseModel]] = [Scene]
    for part in loc:
        tagged = [model for model in models if part in get_args(_annotation(model, "form"))]
        inner = [found for model in models for found in _models_in(_annotation(model, part))]
        models = tagged or inner or models
    return sorted({key for model in models for key in model.model_fields})


def _annotation(model: type[BaseModel], key: str | int) -> Any:
    """Return the type of a model's field, or None."""
    field = model.model_fields.get(str(key))
    return field.annotation if field else None


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    """Return the models that a type is made of."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) for model in _models_in(part)]
