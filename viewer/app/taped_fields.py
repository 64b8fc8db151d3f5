"""The fields of what was taped on the roof: each size of it in walking order, and how its tape agrees with the rest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any

from trimwright.model.layout import Layout
from trimwright.model.message import Angle, Length, Message, message
from trimwright.model.roof.build import build_roof
from trimwright.model.scene.survey import PITCH
from trimwright.model.survey.walk import Visit, walk
from trimwright.model.units import Tape

from ..words.speaker import Speaker
from .fields import Field, FormSection
from .scene_text import value_at

Values = dict[str, Any]

ERRORS = (
    Field(
        ("survey", "tape"),
        message("How far a tape may be off"),
        hint=message("either way; 19 in 20 are nearer"),
    ),
    Field(
        ("survey", "pitch"), message("How far a pitch may be off"), "text", hint=message("such as 0.5 deg")
    ),
)


def taped_sections(
    tables: Mapping[str, Any], visits: Sequence[Visit], faces: Sequence[str]
) -> Iterator[FormSection]:
    """Yield what can be taped: how sure a tape is, then face by face; last what is written under no such name.

    Args:
        tables: The scene's tables.
        visits: What to tape, in walking order.
        faces: Names of the roof's faces.
    """
    yield FormSection("survey", message("Taped on the roof"), ERRORS, "taped")
    known = set()
    for visit in visits:
        fields = tuple(_field(stop.quantity.name) for stop in visit.stops)
        known |= {stop.quantity.name for stop in visit.stops}
        if fields:
            yield FormSection(f"taped.{visit.face}", _title(visit, faces), fields, "taped")
    written = value_at(tables, ("roof", "taped"))
    others = [str(name) for name in written if name not in known] if isinstance(written, Mapping) else []
    if others:
        yield FormSection("taped", message("Taped besides"), tuple(_field(name) for name in others), "taped")


def _title(visit: Visit, faces: Sequence[str]) -> Message:
    if visit.face is None:
        return message("Under the roof")
    return message("Face: {face}", face=faces[visit.face])


@lru_cache(4)
def walk_of(layout: Layout) -> tuple[Visit, ...]:
    """Return what to tape on a roof, in walking order, as it is planned."""
    scene = layout.scene
    return walk(build_roof(scene.roof), scene.accuracy)


def _field(name: str) -> Field:
    kind = "text" if name.endswith(PITCH) else "length"
    return Field(("roof", "taped", name), message("{name}", name=name), kind)  # type: ignore[arg-type]


def planned(name: str, visits: Sequence[Visit], show: Tape) -> str:
    """Return what the plan has for something that can be taped, as it would be written; nothing for no such thing."""
    for visit in visits:
        for stop in visit.stops:
            if stop.quantity.name == name:
                return show.pitch(stop.value) if stop.quantity.kind == "pitch" else show(stop.value)
    return ""


MORE = {
    "left out": Message(
        "In doubt, and left out: it reads {size} more than the others make it. Tape it again."
    ),
    "may be wrong": Message("May be wrong: it reads {size} more than the others make it. Tape it again."),
    "checked": Message("It reads {size} more than the others make it."),
}
LESS = {
    "left out": Message(
        "In doubt, and left out: it reads {size} less than the others make it. Tape it again."
    ),
    "may be wrong": Message("May be wrong: it reads {size} less than the others make it. Tape it again."),
    "checked": Message("It reads {size} less than the others make it."),
}


def tape_reading(name: str, layout: Layout | None, say: Speaker) -> Values | None:
    """Return how a tape agrees with the others, and whether it is in doubt; None where it has not been fitted."""
    survey = layout.survey if layout else None
    taped = survey.by_name.get(name) if survey else None
    if survey is None or taped is None:
        return None
    wrong = taped.left_out or any(name in doubt.tapes for doubt in survey.doubts)
    if not wrong and not taped.is_checked:
        return {"says": say("No other tape checks it: tape it twice.")}
    by = abs(taped.misfit)
    size: Message | Length = message("{angle}°", angle=Angle(by, 2)) if taped.kind == "pitch" else Length(by)
    if not wrong and say("{size}", size=size) in (say.tape(0.0), say("{angle}°", angle=Angle(0.0, 2))):
        return {"says": say("The others agree with it.")}
    case = "left out" if taped.left_out else "may be wrong" if wrong else "checked"
    sentence = (MORE if taped.misfit > 0 else LESS)[case].filled(size=size)
    return {"says": say(sentence), "doubt": wrong}
