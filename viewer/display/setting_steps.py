"""The order of setting, step by step: a piece of trim at a time, the panels of a face at a time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length, Message, Value, counted, message

from .cladding import panel_beside

LAYER = 0.4
"""How far a layer is lifted off the one that it lies on when all is lifted apart, as a share of the whole lift."""

LAPPED = 0.03
"""How far a piece is lifted off the one of its run that it laps."""


@dataclass(frozen=True, slots=True, eq=False)
class SettingStep:
    """One step of the work.

    Attributes:
        number: Its place in the order, from 1.
        kind: What it sets.
        names: Marks of the pieces, or names of the panels, that it sets.
        title: The mark, or which panels.
        place: Name of the run or the face that it is on.
        says: What a foreman would say of it, in a few words.
        over: Marks of the pieces set before it that it lies over.
        away: ``(3,)`` unit vector: the way from which it comes to its place.
    """

    number: int
    kind: Literal["trim", "panels"]
    names: frozenset[str]
    title: Message
    place: str
    says: Message
    over: tuple[str, ...]
    away: Array


def steps_of(layout: Layout) -> tuple[SettingStep, ...]:
    """Return the steps, in the order in which everything goes on."""
    faces = _faces(layout)
    steps: list[SettingStep] = []
    done: set[int] = set()
    for setting in layout.order:
        number = len(steps) + 1
        if setting.kind == "trim":
            steps.append(_trim(layout, layout.part(setting.name), number))
        elif (face := faces.get(setting.name)) is not None and face not in done:
            done.add(face)
            steps.append(_panels(layout, face, number))
    return tuple(steps)


def places_of(layout: Layout) -> dict[str, int]:
    """Return the number of the step that sets each piece and each panel, by its name."""
    return {name: step.number for step in steps_of(layout) for name in step.names}


def runs_in_order(layout: Layout) -> Iterator[tuple[SettingStep, ...]]:
    """Yield the steps that set a run, or the panels of a face, one after another."""
    for _, steps in groupby(steps_of(layout), key=lambda step: (step.kind, step.place)):
        yield tuple(steps)


def under_of(layout: Layout, part: Part) -> tuple[str, ...]:
    """Return the marks of the pieces that a piece lies over."""
    return tuple(name for name in layout.setting(part.mark).over if layout.setting(name).kind == "trim")


def lifts_of(layout: Layout) -> Mapping[str, Array]:
    """Return the way and share by which each piece, and each face's panels by the face's name, are lifted apart.

    What lies over goes farther: a run by a layer more than whatever it lies on, a piece by a little more than the
    piece that it laps.
    """
    layer, lap = _layers(layout)
    lifts = {
        part.mark: _aside(part) * (LAYER * layer[part.run.name] + LAPPED * lap[part.mark])
        for part in layout.parts
    }
    faces = enumerate(layout.roof.faces)
    return lifts | {face.name: face.normal * LAYER * layer.get(f"panels {i}", 0) for i, face in faces}


def _layers(layout: Layout) -> tuple[dict[str, int], dict[str, int]]:
    """Return the layer of each run and of each face's panels, from 1, and how many laps lie under each piece."""
    group = {part.mark: part.run.name for part in layout.parts}
    group |= {name: f"panels {face}" for name, face in _faces(layout).items()}
    layer = dict.fromkeys(group.values(), 1)
    lap = dict.fromkeys(group, 0)
    for setting in layout.order:
        own = group.get(setting.name, "")
        for name in setting.over if own else ():
            if group[name] == own:
                lap[setting.name] = max(lap[setting.name], lap[name] + 1)
            else:
                layer[own] = max(layer[own], layer[group[name]] + 1)
    return layer, lap


def _faces(layout: Layout) -> dict[str, int]:
    """Return the face of every panel, and of every closure and cleat beside one, by its name."""
    faces = {panel.name: panel.face for panel in layout.panels}
    return {name: faces[panel] for name, panel in panel_beside(layout).items()}


def _trim(layout: Layout, part: Part, number: int) -> SettingStep:
    values: dict[str, Value] = {"run": part.run.words, "length": Length(part.length)}
    if part.piece.short:
        says = message("{run}, {length}, the short piece", **values)
    else:
        says = message("{run}, {length}", **values)
    over = under_of(layout, part)
    way = _aside(part)
    return SettingStep(
        number,
        "trim",
        frozenset({part.mark}),
        message("{mark}", mark=part.mark),
        part.run.name,
        says,
        over,
        way / float(np.linalg.norm(way)),
    )


def _panels(layout: Layout, face: int, number: int) -> SettingStep:
    panels = {panel.name for panel in layout.panels_of(face)}
    names = frozenset(name for name, panel in panel_beside(layout).items() if panel in panels)
    says = counted(
        "{count} panel, hooked round the lip", "{count} panels, hooked round the lip", count=len(panels)
    )
    name = layout.roof.faces[face].name
    title = message("{face} panels", face=name)
    return SettingStep(number, "panels", names, title, name, says, (), layout.roof.faces[face].normal)


def _aside(part: Part) -> Array:
    """Return the way from which a piece comes to its place: caps from above, edges from above and outside."""
    out, up = part.run.frame[:3, 1], part.run.frame[:3, 2]
    return np.asarray(up if len(part.run.edge.faces) == 2 else up + 0.55 * out)
