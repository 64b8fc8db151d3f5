"""A finish that somebody tried in the view, put into the text of the scene: as the roof's own, or as a look by name."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any, Literal

import tomlkit

from trimwright.model.message import message
from trimwright.model.metals import METALS
from trimwright.model.scene.colors import as_hex

from ..display.coats import BARE_METALS
from .scene_text import EditError, value_at, with_value
from .setting_aside import SetAside

Values = dict[str, Any]

MOST_LOOKS = 12
LONGEST_NAME = 60


def finish_in(asked: Mapping[str, Any], text: str) -> Values:
    """Return the tables of a scene that a finish is written as: ``metal`` and ``colors``.

    Args:
        asked: ``trim`` and ``panels``, each with ``color``, ``bare`` and the metal ``of`` which it is; ``walls``.
        text: The scene that it is for.

    Raises:
        EditError: It is none, or trim and panels are not of one metal.
    """
    trim, panels = (asked.get(part) for part in ("trim", "panels"))
    if not isinstance(trim, Mapping) or not isinstance(panels, Mapping):
        raise EditError(message("there is no such finish"))
    colors = {"trim": _color(trim), "panels": _color(panels), "walls": _color({"color": asked.get("walls")})}
    if bool(trim.get("bare")) != bool(panels.get("bare")) or trim.get("of") != panels.get("of"):
        raise EditError(
            message("trim and panels are of one metal: give both the same bare metal, or paint on both")
        )
    tables = tomllib.loads(text)
    own = str(value_at(tables, ("metal", "kind")) or "steel")
    bare, of = bool(trim.get("bare")), trim.get("of")
    kind = str(of) if bare and of in METALS else own
    coat = "bare" if bare else str(value_at(tables, ("colors", "coat")) or "satin")
    if not bare and coat == "bare":
        coat = "satin"
    usual = "bare" if kind in BARE_METALS else "satin"
    return {"metal": {"kind": kind}, "colors": colors if coat == usual else {**colors, "coat": coat}}


def with_finish(text: str, asked: Mapping[str, Any], aside: SetAside) -> str:
    """Return a scene's text with a finish as the roof's own.

    Raises:
        TrimwrightError: It is none, or the text cannot take it.
    """
    found = finish_in(asked, text)
    kind = found["metal"]["kind"]
    if kind != (value_at(tomllib.loads(text), ("metal", "kind")) or "steel"):
        text, _ = aside.chosen(text, ("metal", "kind"), kind)
    for name in ("trim", "panels", "walls", "coat"):
        text = with_value(text, ("colors", name), found["colors"].get(name))
    return text


def with_look(text: str, name: str, asked: Mapping[str, Any]) -> str:
    """Return a scene's text with a finish as another look; one of the same name is replaced.

    Raises:
        EditError: It is none, has no name, or there are too many.
    """
    name = " ".join(name.split())[:LONGEST_NAME]
    if not name or not name.isprintable():
        raise EditError(message("give the look a name, such as Copper"))
    found = finish_in(asked, text)
    document = tomlkit.parse(text)
    looks = document.get("look")
    if looks is None:
        document["look"] = looks = tomlkit.aot()
    place = next((at for at, one in enumerate(looks) if one.get("name") == name), None)
    if place is None and len(looks) >= MOST_LOOKS:
        raise EditError(message("a scene takes {most} looks; take one away first", most=MOST_LOOKS))
    table = tomlkit.table()
    table["name"] = name
    own = value_at(tomllib.loads(text), ("metal", "kind")) or "steel"
    tables: tuple[Literal["metal", "colors"], ...] = ("metal", "colors")
    for part in tables if found["metal"]["kind"] != own else tables[1:]:
        inner = tomlkit.inline_table()
        inner.update(found[part])
        table[part] = inner
    if place is not None:
        looks[place].update(table)
    else:
        looks.append(table)
    return tomlkit.dumps(document)


def without_look(text: str, number: int) -> str:
    """Return a scene's text without one of its looks.

    Raises:
        EditError: There is none of this number.
    """
    document = tomlkit.parse(text)
    looks = document.get("look")
    if not isinstance(looks, list) or not 0 <= number < len(looks):
        raise EditError(message("there is no such look"))
    del looks[number]
    if not looks:
        del document["look"]
    return tomlkit.dumps(document)


def _color(coated: Mapping[str, Any]) -> str:
    color = as_hex(str(coated.get("color", "")))
    if color is None:
        raise EditError(message("there is no such finish"))
    return color
