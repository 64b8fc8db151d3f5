"""The fields of the form: where each value stands in a scene, what it is called, and how it is written."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import Any, Literal, get_args

from trimwright.model.limits.load import rule_sets
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.roof.build import kinds_of_edge
from trimwright.model.scene.buy import BuySpec
from trimwright.model.scene.schema import FastenerMetal, MetalKind, PanelSpec, Scene
from trimwright.model.scene.trim import Start
from trimwright.model.trim_kinds import EdgeKind
from trimwright.model.units import Style, Unit

from ..display.trim_looks import LOOKS
from ..words.languages import LANGUAGES, NAMES
from .scene_text import value_at

Kind = Literal["text", "length", "lengths", "number", "choice", "count", "check", "here", "color"]
"""``count`` is a choice among whole numbers, ``here`` whether an edge has trim at all."""

BY_TEXT = "(written as text)"
"""What a field shows that has no room for all that a scene says there."""

FORMS = ("gable", "hip", "shed")

STARTS: Mapping[str, str] = {
    "low": "at the low end", "high": "at the high end", "centered": "centered", "even": "all pieces alike",
}  # fmt: skip
"""The starting rules, and how each reads."""


@dataclass(frozen=True, slots=True)
class Field:
    """One value of the form.

    Attributes:
        path: Where it stands in a scene.
        label: What it is called.
        kind: How it is written.
        choices: What can be chosen, as written, each with how it reads.
        hint: A few words below it.
        must: It cannot be left empty.
    """

    path: tuple[str, ...]
    label: str
    kind: Kind = "length"
    choices: tuple[tuple[str, str], ...] = ()
    hint: str = ""
    must: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """Fields that belong together.

    Attributes:
        name: Unique in the form.
        title: What it is called.
        fields: Its fields.
        group: What it is one of many of: ``runs``; empty for none.
    """

    name: str
    title: str
    fields: tuple[Field, ...]
    group: str = ""


def sections(tables: Mapping[str, Any], runs: Mapping[str, EdgeKind]) -> tuple[Section, ...]:
    """Return the form.

    Args:
        tables: The scene's tables as they stand in its text, readable or not.
        runs: Kinds of trim by the names of the runs.
    """
    form = str(value_at(tables, ("roof", "form")))
    set_name = str(value_at(tables, ("rules", "set")))
    own, limits = (value_at(tables, path) for path in (("profile",), ("rules", "limits")))
    profiles = list(own) if isinstance(own, Mapping) else []
    changed = set(limits) if isinstance(limits, Mapping) else set()
    return (
        Section("roof", "Roof", (TITLE, *_roof(form))),
        Section("metal", "Metal and stock", _METAL),
        Section("colors", "Colors", _COLORS),
        Section("panels", "Panels", _PANELS),
        *(
            Section(f"trim.{kind}", LOOKS[kind].title, tuple(_trim(("trim", kind), kind, profiles, False)))
            for kind in trims_of(form)
        ),
        *(
            Section(f"run.{run}", run, tuple(_trim(("run", run), kind, profiles, True)), "runs")
            for run, kind in runs.items()
        ),
        Section("screws", "Screws", _SCREWS),
        Section("rules", "Rules", _RULES),
        Section("limits", "Limits of your own", tuple(_limits(set_name, changed))),
        Section("buy", "Buying", _BUY),
        Section("shop", "Your shop", _SHOP),
        Section("photo", "The house in a photograph", _PHOTO),
        Section("scene", "Units, wind and north", _SCENE),
    )


def trims_of(form: str) -> tuple[EdgeKind, ...]:
    """Return the kinds of edge that a form of roof has; none for what is no form."""
    return kinds_of_edge(form) if form in FORMS else ()


def written(field: Field, text: str) -> Any:
    """Return what a person wrote into a field as the value that a scene keeps; None when it is left empty."""
    text = text.strip()
    if not text and not field.must:
        return None
    match field.kind:
        case "check":
            return {"yes": True, "no": False}.get(text, text)
        case "here":
            return None if text == "yes" else False
        case "length" | "number" | "count":
            return _number(text)
        case "lengths":
            return [_number(part.strip()) for part in text.strip("[]").split(",")]
        case _:
            return text


def shown(value: Any) -> str:
    """Return a value of a scene as its field shows it."""
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case list() | tuple():
            parts = [shown(one) for one in value]
            return BY_TEXT if BY_TEXT in parts else ", ".join(parts)
        case Mapping():
            return shown(value["length"]) if set(value) == {"length"} else BY_TEXT
        case _:
            return str(value)


def _number(text: str) -> int | float | str:
    """Return a bare number as one, all else as the text that it is."""
    if re.fullmatch(r"-?(0|[1-9]\d{0,11})", text, re.ASCII):
        return int(text)
    if re.fullmatch(r"-?(\d{1,12}\.\d{0,12}|\.\d{1,12})", text, re.ASCII):
        return float(text)
    return text


def _choices(names: Sequence[str], reads: Mapping[str, str] | None = None) -> tuple[tuple[str, str], ...]:
    return tuple((name, (reads or {}).get(name, name)) for name in names)


def _spec_choices(model: Any, key: str) -> tuple[tuple[str, str], ...]:
    """Return what the schema allows for a key that is one of several words."""
    return _choices([str(one) for one in get_args(model.model_fields[key].annotation)])


_UNITS = {"in": "inches", "ft": "feet", "mm": "millimetres", "cm": "centimetres", "m": "metres"}
_FRACTIONS = ("2", "4", "8", "16", "32", "64")

TITLE = Field(("title",), "Title", "text", must=True)

_SCENE = (
    Field(("unit",), "A bare number is in", "choice", _choices(get_args(Unit), _UNITS)),
    Field(
        ("show",),
        "Lengths are written in",
        "choice",
        _choices(get_args(Style), {"feet": "feet and inches", "mm": "millimetres"}),
    ),
    Field(
        ("denominator",),
        "Finest fraction",
        "count",
        _choices(_FRACTIONS, {n: f"1/{n} in" for n in _FRACTIONS}),
    ),
    Field(("language",), "Language", "choice", _choices(tuple(LANGUAGES), NAMES)),
    Field(("wind",), "Wind comes from the", "choice", _spec_choices(Scene, "wind")),
    Field(("north",), "North, degrees from the back", "number", hint="clockwise, seen from above"),
)

_METAL = (
    Field(("metal", "kind"), "Metal", "choice", _choices(get_args(MetalKind))),
    Field(("metal", "thickness"), "Thickness", hint="a length, or a label such as 24 ga"),
    Field(("metal", "stock"), "Stock lengths", "lengths", hint="one, or several with commas between"),
    Field(("metal", "radius"), "Inside of bends"),
    Field(("metal", "design_heat"), "Swing of temperature, °F", "number"),
)

_COLORS = (
    Field(("metal", "color"), "Metal", "color"),
    Field(("colors", "trim"), "Trim", "color"),
    Field(("colors", "panels"), "Panels", "color"),
    Field(("colors", "walls"), "Walls", "color"),
)

_PANELS = (
    Field(("panels", "cover"), "Cover, seam to seam"),
    Field(("panels", "offset"), "First seam stands at", hint="from the left, looking up the slope"),
    Field(("panels", "seam"), "Height of seams"),
    Field(("panels", "seam_kind"), "Seams", "choice", _spec_choices(PanelSpec, "seam_kind")),
    Field(("panels", "show"), "Show them", "check"),
)

_SCREWS = (
    Field(("screws", "first"), "First, from the low end"),
    Field(("screws", "spacing"), "Most between two"),
    Field(
        ("screws", "ends"), "From the ends of a piece", "lengths", hint="least and most, such as 6 in, 8 in"
    ),
    Field(("screws", "kind"), "Metal", "choice", _choices(get_args(FastenerMetal))),
    Field(("screws", "head"), "Head"),
    Field(("screws", "pilot"), "Pilot holes", hint="left empty, none are drilled"),
)

_RULES = (Field(("rules", "set"), "Rule set", "choice", _choices(tuple(rule_sets()))),)

_PHOTO = (
    Field(("photo", "file"), "Photograph", "text", hint="JPEG, PNG or WebP, beside the scene"),
    Field(
        ("photo", "focal"), "Focal length, as of 35 mm film", "number", hint="left empty, what the file says"
    ),
    Field(
        ("photo", "front"),
        "Mask of what stands in front",
        "text",
        hint="white on black, PNG, beside the scene",
    ),
    Field(("photo", "choose"), "Camera, where several fit", "number"),
)
_SHOP = (
    Field(("shop", "name"), "Name", "text"),
    Field(("shop", "currency"), "Currency sign", "text"),
    Field(("shop", "prices"), "Price list", "text", hint="CSV or XLSX, beside the scene"),
    Field(("shop", "logo"), "Logo", "text", hint="PNG or JPEG, beside the scene"),
)
_BUY = (
    Field(("buy", "objective"), "Buy least", "choice", _spec_choices(BuySpec, "objective")),
    Field(("buy", "kerf"), "Lost at each cut", hint="0 for snips and shears"),
)


def _roof(form: str) -> Iterator[Field]:
    yield Field(("roof", "form"), "Form", "choice", _choices(FORMS), must=True)
    yield Field(("roof", "length"), "Length over the walls", must=True)
    yield Field(("roof", "width"), "Width over the walls", must=True)
    yield Field(("roof", "pitch"), "Pitch", "text", hint="6/12, 26.57 deg or 50 %", must=True)
    if form == "gable":
        yield Field(("roof", "far_pitch"), "Pitch of the back", "text", hint="left empty, as the front")
    if form == "hip":
        yield Field(("roof", "end_pitch"), "Pitch of the ends", "text", hint="left empty, as the sides")
    yield Field(
        ("roof", "wall_height"), "Height of the low wall" if form == "shed" else "Height of the walls"
    )
    yield Field(("roof", "overhang", "eave"), "Overhang at the eaves")
    if form != "hip":
        yield Field(("roof", "overhang", "rake"), "Overhang at the rakes")
    if form == "shed":
        yield Field(("roof", "overhang", "high"), "Overhang at the high side")
    yield Field(("roof", "deck"), "Thickness of the deck")


def _trim(table: tuple[str, str], kind: EdgeKind, own: Sequence[str], one_run: bool) -> Iterator[Field]:
    """Yield the fields of one kind of edge, or of one run."""
    fitting = [name for name, profile in catalogue().items() if kind in profile.edges]
    yield Field(table, "Trim here", "here")
    yield Field((*table, "profile"), "Profile", "choice", _choices(list(dict.fromkeys([*fitting, *own]))))
    yield Field((*table, "lap"), "Lap")
    yield Field((*table, "start"), "Full lengths begin", "choice", _choices(get_args(Start), STARTS))
    yield Field((*table, "tab"), "Tab at corners", hint="0 for none")
    yield Field((*table, "sealed"), "Laps set in sealant", "check")
    yield Field((*table, "fixed"), "Fastened so that it cannot move", "check")
    if one_run:
        yield Field((*table, "pieces"), "Lengths by hand", "lengths", hint="from the low end, commas between")


def _limits(set_name: str, changed: Set[str]) -> Iterator[Field]:
    """Yield a field for each limit of the rule set, and one for the reason where a scene departs from it."""
    chosen = rule_sets().get(set_name) or next(iter(rule_sets().values()))
    for name, limit in chosen.limits.items():
        words = name.replace("-", " ")
        kind: Kind = "lengths" if isinstance(limit.value, tuple) else "length"
        label = words if limit.unit == "1" else f"{words}, {limit.unit}"
        yield Field(("rules", "limits", name, "value"), label, kind, hint=str(limit.source.whole))
        if name in changed:
            yield Field(("rules", "limits", name, "reason"), f"reason for {words}", "text")
