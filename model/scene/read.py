"""Read a scene: from a file or a text to a `Scene`, or to every problem in it."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from ..edge_kinds import KINDS
from ..errors import Key, Problem, SceneError, key_said
from ..measures import printable, shorten
from ..message import Listed, Message, Value, counted, message, places
from ..units import INCHES
from .chart import with_chart
from .colors import chart_of
from .dressed import dressed
from .roof import FORMS
from .schema import Scene
from .tables import LARGEST, tables_in

MOST_PROBLEMS = 100
"""Lines; more than anybody reads, and few enough to write at once whatever the file holds."""


def read_scene(path: Path | str) -> Scene:
    """Return the scene in the TOML file at ``path``.

    Raises:
        SceneError: The file cannot be read or understood; every problem in it.
    """
    path = Path(path)
    raw = _bytes_in(path)
    if len(raw) > LARGEST:
        raise _unread(path, message("more than {most} bytes; a scene is a short text file", most=LARGEST))
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        told = message("line {line}: not UTF-8 text; save the file as UTF-8", line=line)
        raise _unread(path, told) from None
    return scene_from(text, path.name, path.parent)


def _bytes_in(path: Path) -> bytes:
    """Return what is in a file, up to one byte more than a scene may have."""
    try:
        if path.is_dir():
            raise _unread(path, message("this is a folder; give a scene file, such as boat-shed.toml"))
        if path.is_fifo():
            raise _unread(path, message("this is a pipe; save the scene to a file and give that"))
        with path.open("rb") as file:
            return file.read(LARGEST + 1)
    except FileNotFoundError:
        raise _unread(path, message("there is no such file; give the path of a scene file")) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise SceneError(
            Problem(message("cannot be read: {reason}", reason=reason), file=shorten(str(path)))
        ) from None


def _unread(path: Path, told: Message) -> SceneError:
    return SceneError(Problem(told, file=str(path)))


def scene_from(text: str, name: str = "scene", folder: Path | None = None) -> Scene:
    """Return the scene written in ``text``; ``name`` is that of the file in each problem.

    Args:
        text: The scene.
        name: What its file is called.
        folder: Where the file is: files that the scene names are relative to it.

    Raises:
        SceneError: Every problem.
    """
    raw = tables_in(text, name)
    return scene_of(raw, name, folder)


def scene_of(raw: Mapping[str, Any], name: str = "scene", folder: Path | None = None) -> Scene:
    """Return the scene that the parsed tables ``raw`` describe.

    Raises:
        SceneError: Every problem.
    """
    raw = with_chart(raw, folder)
    unit = raw.get("unit", "in")
    context = {
        "unit": unit if isinstance(unit, str) and unit in INCHES else "in",
        "folder": folder,
        "chart": chart_of(raw.get("shop")),
    }
    try:
        scene = Scene.model_validate(raw, context=context)
    except ValidationError as error:
        details = _without_echoes(error.errors(include_url=False))
    else:
        details = list(_wrong_in_looks(scene))
        if not details:
            return scene
    problems = list(dict.fromkeys(_problem(name, raw, detail) for detail in details[:MOST_PROBLEMS]))
    more = len(details) - MOST_PROBLEMS
    if more > 0:
        told = counted("and {count} problem more", "and {count} problems more", count=more)
        problems.append(Problem(told, file=name))
    raise SceneError(*problems)


def _wrong_in_looks(scene: Scene) -> Iterator[ErrorDetails]:
    """Yield what is wrong in the looks, which are tables only once they are put on the scene."""
    for number, look in enumerate(scene.look):
        try:
            dressed(scene, look)
        except ValidationError as error:
            for detail in _without_echoes(error.errors(include_url=False)):
                yield {**detail, "loc": ("look", number, *detail["loc"])}


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


def _problem(name: str, raw: Mapping[str, Any], detail: ErrorDetails) -> Problem:
    """Return one problem: where, what came and what is allowed."""
    key = _key_in(raw, detail)
    return Problem(_message(raw, key, detail), key, name)


def _key_in(raw: object, detail: ErrorDetails) -> Key:
    """Return the place of a problem in the file: without the tags that a choice of tables adds to it."""
    kept: list[str | int] = []
    at: Any = raw
    parts = list(detail["loc"])
    if parts[:1] == ["roof"] and len(parts) > 1:
        del parts[1]  # the form, by which its table was chosen
    for number, part in enumerate(parts):
        last = number == len(parts) - 1
        inside = (isinstance(at, Mapping) and part in at) or (
            isinstance(at, list | tuple) and isinstance(part, int) and part < len(at)
        )
        if inside:
            at = at[part]
        if inside or (last and detail["type"] == "missing"):
            kept.append(part)
    return tuple(kept)


def _message(raw: Mapping[str, Any], key: Key, detail: ErrorDetails) -> Message:
    """Return what came, what is allowed and the way out."""
    came, context, kind = shorten(detail["input"]), detail.get("ctx", {}), detail["type"]
    table = key_said(key)
    if kind == "refusal":
        told: Message = context["message"]
        return told
    if kind == "extra_forbidden":
        return _unknown(raw, tuple(part for part in detail["loc"] if part != "[key]"))
    if kind == "missing":
        if len(key) > 1:
            return message("missing; this table needs it")
        return message("missing; a scene needs it")
    if kind in ("tuple_type", "list_type"):
        if isinstance(detail["input"], Mapping):
            return message("one table stands where a list is wanted; write [[{table}]]", table=table)
        return message("{came} is not a list; write [ ... ]", came=came)
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        if key[0] == "look" and (meant := _in_look(str(key[-1]))):
            return message("{came} is not a table; {meant}", came=came, meant=meant)
        if any(isinstance(part, int) for part in key):
            return message("{came} is not a table; write {key} = {{ ... }}", came=came, key=str(key[-1]))
        return message("{came} is not a table; write its keys under [{table}]", came=came, table=table)
    if kind == "union_tag_not_found":
        return message(
            "form is missing; give form = {forms}", forms=Listed(tuple(f'"{form}"' for form in FORMS), "or")
        )
    if kind in _SENTENCES:
        sentence = _SENTENCES[kind]
        given = {"came": came, **{name: _plainly(name, value) for name, value in context.items()}}
        return sentence.filled(**{name: given[name] for name in places(sentence.text)})
    return message("{came}: {reason}", came=came, reason=f"{detail['msg'][:1].lower()}{detail['msg'][1:]}")


_SENTENCES = {
    "literal_error": Message("{came} is not one of {expected}"),
    "union_tag_invalid": Message('form "{tag}" is not one of {expected_tags}'),
    "string_type": Message("{came} is not text; give text in quotation marks"),
    "string_too_short": Message("empty; give some text"),
    "string_too_long": Message("too long; give at most {max_length} characters"),
    "bool_type": Message("{came} is neither true nor false; give one of them"),
    "float_type": Message("{came} is not a number; give one without a unit"),
    "float_parsing": Message("{came} is not a number; give one without a unit"),
    "finite_number": Message("{came} is not a number; give a finite one"),
    "greater_than_equal": Message("{came} is too small; give {ge} or more"),
    "less_than_equal": Message("{came} is too large; give {le} or less"),
    "too_short": Message("too few; give at least {min_length}, or leave the key out"),
    "too_long": Message("too many; give at most {max_length}"),
}
"""What pydantic's own errors say here, by their type; what it knows of them are the values."""


def _plainly(name: str, value: object) -> Value:
    """Return a bound or the choices as a scene would write it; pydantic gives choices joined by its own words."""
    if name == "expected":
        return Listed(tuple(re.split(", | or ", str(value).replace("'", '"'))), "or")
    if name == "tag":
        return printable(str(value))[:48]
    return f"{value:g}" if isinstance(value, float) else str(value).replace("'", '"')


def _unknown(raw: Mapping[str, Any], key: Key) -> Message:
    """Return what to do about a key that its table does not know: where it belongs, or which one is near."""
    name, known = str(key[-1]), _keys_at(key[:-1])
    if key[0] == "look" and len(key) == 3 and (meant := _in_look(name)):
        return message("no such key here; {meant}", meant=meant)
    if home := _home(name, raw):
        return home
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.6)
    if near:
        return message("no such key; did you mean {near}?", near=near[0])
    return message("no such key; there are {known}", known=Listed(tuple(known), "comma"))


def _in_look(key: str) -> Message | None:
    """Return how a look says ``key`` of its colors, its metal or its panels; None where none of them knows it."""
    table = next((table for table in ("colors", "metal", "panels") if key in _keys_at((table,))), None)
    return message("in a look write {table} = {{ {key} = ... }}", table=table, key=key) if table else None


def _home(key: str, raw: Mapping[str, Any]) -> Message | None:
    """Return which table knows ``key``, as a person would look for it; None where none does."""
    if key in Scene.model_fields:
        return message("no such key here; it belongs at the top, above the first table")
    roof = raw.get("roof")
    form = str(roof.get("form")) if isinstance(roof, Mapping) else ""
    tables = [
        table
        for table, field in Scene.model_fields.items()
        if _models_in(field.annotation) and get_origin(field.annotation) is not dict
    ]
    for table in tables:
        if key in _keys_at((table, form if table == "roof" else "")):
            return message("no such key here; it belongs under [{table}]", table=table)
    for table in (*tables, "trim"):
        for inner in _keys_at((table,)):
            if key in _keys_at((table, inner)) and key not in _keys_at((table,)):
                return message("no such key here; it belongs under [{table}]", table=f"{table}.{inner}")
    forms = _models_in(_annotation(Scene, "roof"))
    owners = [get_args(_annotation(model, "form"))[0] for model in forms if key in model.model_fields]
    return message('no such key here; it belongs to form = "{form}"', form=owners[0]) if owners else None


def _keys_at(key: Key) -> list[str]:
    """Return the keys that the table at ``key`` knows."""
    if key == ("trim",):
        return list(KINDS)
    models: list[type[BaseModel]] = [Scene]
    for part in key:
        tagged = [model for model in models if part in get_args(_annotation(model, "form"))]
        inner = [found for model in models for found in _models_in(_annotation(model, part))]
        models = tagged or inner or models
    return sorted({field.alias or key for model in models for key, field in model.model_fields.items()})


def _annotation(model: type[BaseModel], key: str | int) -> Any:
    """Return the type of a model's field, or None."""
    field = model.model_fields.get(str(key))
    return field.annotation if field else None


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    """Return the models that a type is made of."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) for model in _models_in(part)]
