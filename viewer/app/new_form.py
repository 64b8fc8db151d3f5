"""What another form of roof begins with: the house as it stands, as far as the new form can say it."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from trimwright.model.errors import SceneError
from trimwright.model.scene.outline import OutlineSpec
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.roof import CrossGableSpec, GableSpec, HipSpec, RoofSpec, ShedSpec
from trimwright.model.units import Tape

from ..words.speaker import speaker_for
from .scene_text import value_at, with_value

Place = tuple[str, ...]


def begun(text: str, before: str) -> str:
    """Return ``text``, whose form of roof is new, with what that form needs and has not got.

    Args:
        text: A scene.
        before: The same as it was with the form before; where it cannot be read, nothing is added.

    Raises:
        EditError: The text cannot take it.
    """
    try:
        spec = scene_from(before, "").roof
    except SceneError:
        return text
    tape = speaker_for(text).tape
    form = str(value_at(tomllib.loads(text), ("roof", "form")))
    for path, value in _needed(form, spec, tape):
        if value_at(tomllib.loads(text), path) is None:
            text = with_value(text, path, value)
    return text


def _needed(form: str, spec: RoofSpec, tape: Tape) -> Iterator[tuple[Place, Any]]:
    """Yield what a form needs, with what comes nearest to the roof before."""
    if form == "outline":
        plain = _outlined(spec)
        if plain is not None:
            corners, sides = plain
            yield ("roof", "outline"), [[tape.typed(x), tape.typed(y)] for x, y in corners]
            if sides:
                yield ("roof", "sides"), {str(number): dict(side) for number, side in sides.items()}
        return
    if isinstance(spec, GableSpec | HipSpec | ShedSpec | CrossGableSpec | OutlineSpec):
        yield ("roof", "length"), tape.typed(spec.length)
        yield ("roof", "width"), tape.typed(spec.width)
        if form == "cross gable":
            third, depth = tape.down(spec.length / 3), tape.down(spec.width / 3)
            wing = {"at": third, "width": third, "length": depth}
            yield ("roof", "wing"), {name: tape.typed(size) for name, size in wing.items()}


Sides = Mapping[int, Mapping[str, Any]]


def _outlined(spec: RoofSpec) -> tuple[list[tuple[float, float]], Sides] | None:
    """Return the corners of a house of another form, inches, and what its sides have; None where they are not known."""
    gable = {"edge": "gable"}
    match spec:
        case CrossGableSpec():
            plan = spec.outlined
            gables = [number for number in plan.sides if plan.is_gable(number)]
            wing = {} if spec.wing.pitch is None else {n: {"pitch": _pitch(spec.wing.pitch)} for n in (2, 4)}
            return [(x, y) for x, y in plan.outline], {**wing, **dict.fromkeys(gables, gable)}
        case HipSpec():
            ends = {} if spec.end_pitch is None else {n: {"pitch": _pitch(spec.end_pitch)} for n in (2, 4)}
            return _rectangle(spec), ends
        case GableSpec():
            back = {} if spec.far_pitch is None else {3: {"pitch": _pitch(spec.far_pitch)}}
            return _rectangle(spec), {2: gable, **back, 4: gable}
        case ShedSpec():
            return _rectangle(spec), {2: gable, 4: gable}
        case _:
            return None


def _rectangle(spec: GableSpec | HipSpec | ShedSpec) -> list[tuple[float, float]]:
    return [(0.0, 0.0), (spec.length, 0.0), (spec.length, spec.width), (0.0, spec.width)]


def _pitch(slope: float) -> str:
    return Tape().pitch(slope)
