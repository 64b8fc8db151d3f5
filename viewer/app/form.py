"""The form as the browser gets it: every field with what it says, what holds where it is empty, and its problem."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from typing import Any

from trimwright.model.errors import Key, Problem
from trimwright.model.layout import Layout
from trimwright.model.scene.faces import FacesSpec
from trimwright.model.scene.outline import OutlineSpec
from trimwright.model.scene.roof import CrossGableSpec
from trimwright.model.units import Tape

from ..words.speaker import Speaker
from .fields import Field, FormSection, Name, shown
from .form_sections import sections
from .outline_fields import BY_SIDE, PLAN, PORCHED
from .reading import reading_of
from .scene_text import ITSELF, value_at
from .taped_fields import planned, tape_reading, walk_of

Values = dict[str, Any]

TAPED = ("roof", "taped")

FINE = 0.5
"""Lengths below this are written in decimals: no tape reads a thickness."""

LIMIT_OF: Mapping[Key, str] = {
    ("screws", "first"): "screw-first",
    ("screws", "spacing"): "screw-spacing",
    ("screws", "ends"): "end-screw",
}
"""Where a scene says nothing, the rule set does."""


def sections_of(text: str, layout: Layout | None) -> tuple[FormSection, ...]:
    """Return the form for a text; single runs are those of ``layout``, the last that could be built."""
    if layout is None:
        return sections(tomllib.loads(text), {})
    bare = {edge.name: edge.kind for edge in layout.roof.edges if edge.name in layout.scene.run}
    runs = {run.name: run.trim for run in layout.runs} | bare
    return sections(tomllib.loads(text), runs, walk_of(layout), [face.name for face in layout.roof.faces])


def form_of(text: str, layout: Layout | None, problems: Iterable[Problem], say: Speaker) -> Values:
    """Return sections with their fields, and the problems that belong to none of them."""
    tables = tomllib.loads(text)
    left = list(problems)
    result = []
    for section in sections_of(text, layout):
        fields = []
        for field in section.fields:
            mine = [problem for problem in left if _is_at(problem.key, field.path)]
            left = [problem for problem in left if problem not in mine]
            fields.append(
                {
                    "path": list(field.path),
                    "label": say(field.label),
                    "kind": field.kind,
                    "choices": [[name, _named(reads, say)] for name, reads in field.choices],
                    "hint": _named(field.hint, say),
                    "must": field.must,
                    **_value(field, tables, say),
                    "blank": "" if layout is None else blank_of(field, layout),
                    "reading": _reading(field, tables, layout, say),
                    "problem": " ".join(say(problem.message) for problem in mine),
                }
            )
        title = _named(section.title, say)
        result.append({"name": section.name, "title": title, "group": section.group, "fields": fields})
    if value_at(tables, ("roof", "form")) == "outline":
        left = [problem for problem in left if problem.key not in PLAN]  # told beside the plan
    porches = value_at(tables, ("roof", "form")) in (*BY_SIDE, *PORCHED)
    return {"sections": result, "loose": [say(problem) for problem in left], "porches": porches}


def _reading(field: Field, tables: Values, layout: Layout | None, say: Speaker) -> Values | None:
    """Return what a field's value is read as, or how a tape agrees with the others."""
    if field.path[:2] == TAPED and value_at(tables, field.path) is not None:
        return tape_reading(str(field.path[2]), layout, say)
    return reading_of(field, tables, say)


def _named(name: Name, say: Speaker) -> str:
    return name if isinstance(name, str) else say(name)


def _value(field: Field, tables: Mapping[str, Any], say: Speaker) -> Values:
    """Return what a field shows, and whether it is fixed: it has more to it than a field holds."""
    value = value_at(tables, field.path)
    if field.kind == "here":
        return {"value": "no" if value is False else "yes", "fixed": False}
    text = shown(value)
    return {"value": say("(written as text)") if text is None else text, "fixed": text is None}


def _is_at(key: Key, path: Key) -> bool:
    """Return whether a problem's place is the value at ``path``, or an item of it; a bare limit is its own value."""
    names = path[:-1] if path[-1] == ITSELF else path
    item = key[len(names) :]
    return key[: len(names)] == names and (key == path or not item or isinstance(item[0], int))


def blank_of(field: Field, layout: Layout) -> str:
    """Return what holds for a field that is left empty, as it would be written there."""
    show, limit = layout.scene.tape, LIMIT_OF.get(field.path[:2])
    if limit or field.path[:2] == ("rules", "limits"):
        name = limit or str(field.path[2])
        if name not in layout.limits.by_rule or field.path[-1] == "reason":
            return ""
        standing = layout.limits[name]
        return _said(standing.value, field, show) if standing.unit == "in" else shown(standing.value) or ""
    if field.path[:2] == TAPED:
        return planned(str(field.path[2]), walk_of(layout), show)
    if field.path[:2] == ("roof", "sides"):
        return _usual_of_side(field, layout)
    at: Any = layout.scene
    path = field.path
    if path[0] == "run":
        run = next((run for run in layout.runs if run.name == path[1]), None)
        at, path = (run.spec, path[2:]) if run else (None, ())
    for part in path:
        at = _inside(at, part)
    return _said(at, field, show)


def _inside(at: Any, part: str | int) -> Any:
    """Return what a scene has under a name or, in a list, at a place; None where it has nothing there."""
    if isinstance(part, int):
        return at[part] if isinstance(at, tuple) and part < len(at) else None
    return getattr(at, part, None)


def _usual_of_side(field: Field, layout: Layout) -> str:
    """Return what a side of an outline has where it has nothing of its own."""
    roof, show = layout.scene.roof, layout.scene.tape
    if not isinstance(roof, OutlineSpec):
        return ""
    number = int(field.path[2])
    match field.path[3]:
        case "edge":
            return "eave"
        case "pitch":
            return "" if roof.is_gable(number) else show.pitch(roof.pitch)
        case _:
            return show(roof.overhang.rake if roof.is_gable(number) else roof.overhang.eave)


def _said(value: Any, field: Field, show: Tape) -> str:
    """Return a value that was read as a person would write it."""
    if value is None or field.kind == "here" or field.path[-1] == "pieces":
        return ""
    if isinstance(value, tuple):
        return ", ".join(_said(one, field, show) for one in value)
    if str(field.path[-1]).endswith("pitch"):
        return show.pitch(value)
    if field.kind in ("length", "lengths") and isinstance(value, float):
        return show.fine(value) if 0 < value < FINE else show(value)
    return f"{value:g}" if isinstance(value, float) else shown(value) or ""


def sizes_of(layout: Layout) -> Values | None:
    """Return the sizes that the drawing beside the form is made from, inches and radians; None where none is made."""
    roof = layout.scene.roof
    if isinstance(roof, CrossGableSpec | OutlineSpec | FacesSpec):
        return None
    return {
        "form": roof.form,
        "length": roof.length,
        "width": roof.width,
        "pitch": roof.pitch,
        "far": getattr(roof, "far_pitch", None) or roof.pitch,
        "end": getattr(roof, "end_pitch", None) or roof.pitch,
        "wall": roof.wall_height,
        "far_wall": getattr(roof, "far_wall_height", None) or roof.wall_height,
        "deck": roof.deck,
        "eave": roof.overhang.eave,
        "rake": roof.overhang.rake,
        "high": roof.overhang.high,
    }
