"""The panels, face by face: those in a row that are made alike on one line, faces with the same ones together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from trimwright.model.layout import Layout
from trimwright.model.message import Angle, Length, Listed, Message, Value, message
from trimwright.model.panels.record import EndCut, Panel
from trimwright.model.panels.starting_line import FEET, METERS, StartingLine, starting_lines
from trimwright.model.panels.steps import SQUARE
from trimwright.model.roof.name_words import name_words

from .record import Cell, List, ListField

PANEL = ListField(message("Panel"), share=1.6)

MADE = (
    ListField(message("Made"), share=1.4),
    ListField(message("Width"), "length"),
    ListField(message("Length"), "length"),
    ListField(message("Low end"), share=1.4),
    ListField(message("High end"), share=1.4),
)


def panel_schedule(layout: Layout) -> List:
    """Return every panel by its name, those in a row that are alike on one line."""
    rows: list[tuple[Cell, ...]] = []
    for own in _in_a_row(layout.panels):
        first, last = own[0], own[-1]
        name = first.name if first is last else message("{first} to {last}", first=first.name, last=last.name)
        rows.append((name, len(own), *_cells(first)))
    note = message(
        "Width and length are those of the flat sheet. Ends are beveled by so many degrees off square. Where panels "
        "come formed, bevels and notches are cut on the formed panel; where they are cut flat, these come before "
        "forming. Ends are turned up after it."
    )
    steps = FEET if layout.scene.tape.style == "feet" else METERS
    lines = map(_struck, starting_lines(layout.roof, layout.panels, steps))
    fields = (PANEL, ListField(message("Count"), "count", 0.7), *MADE)
    return List("panel-schedule", message("panel by panel"), fields, tuple(rows), (note, *lines))


def by_faces(layout: Layout) -> Iterator[List]:
    """Yield the panels by their numbers from the left, a list for all faces that have the same ones."""
    found: list[tuple[list[str], list[list[Panel]], list[tuple[object, ...]]]] = []
    for face, panels in groupby(layout.panels, key=lambda panel: panel.face):
        rows = list(_in_a_row(list(panels)))
        made = [(len(own), *_made(own[0])) for own in rows]
        same = next((names for names, _, other in found if other == made), None)
        if same is None:
            found.append(([layout.roof.faces[face].name], rows, made))
        else:
            same.append(layout.roof.faces[face].name)
    for names, rows, _ in found:
        fields = (PANEL, ListField(message("On each face"), "count", 0.7), *MADE)
        if len(names) == 1:
            fields = (PANEL, ListField(message("Count"), "count", 0.7), *MADE)
        each = tuple((_numbers(own, names[0]), len(own), *_cells(own[0])) for own in rows)
        yield List(
            "panel-schedule", message("{faces}", faces=Listed(tuple(map(name_words, names)))), fields, each
        )


def _in_a_row(panels: Sequence[Panel]) -> Iterator[list[Panel]]:
    """Yield panels beside each other that are made alike."""
    for _, alike in groupby(panels, key=lambda panel: (panel.face, *_made(panel))):
        yield list(alike)


def _numbers(own: Sequence[Panel], face: str) -> Cell:
    """Return the numbers of panels in a row on a face."""
    first, last = (panel.name.removeprefix(face).strip() for panel in (own[0], own[-1]))
    return first if first == last else message("{first} to {last}", first=first, last=last)


def _cells(panel: Panel) -> tuple[Cell, ...]:
    """Return how a panel is made."""
    cuts = (_cuts([end for end in panel.ends if end.at == at]) for at in ("low", "high"))
    return (_ripped(panel), panel.width, panel.length, *cuts)


def _struck(line: StartingLine) -> Message:
    """Return how the first seam of a face is struck square to its eave."""
    values: dict[str, Value] = {
        "face": name_words(line.face),
        "eave": name_words(line.eave),
        "offset": Length(line.offset),
        "along": Length(line.along),
        "up": Length(line.up),
        "across": Length(line.across),
    }
    if line.way == "right":
        return message(
            "Face {face}: the first seam stands {offset} from the left end of the {eave}. Square to the eave, a mark "
            "{along} to the right of it and one {up} up the seam are {across} apart.",
            **values,
        )
    return message(
        "Face {face}: the first seam stands {offset} from the left end of the {eave}. Square to the eave, a mark "
        "{along} to the left of it and one {up} up the seam are {across} apart.",
        **values,
    )


def _ripped(panel: Panel) -> Message:
    """Return how wide a panel is made."""
    if panel.taper is not None:
        low, high = panel.taper
        return message("tapered from {low} to {high}", low=Length(low), high=Length(high))
    if panel.ripped is not None:
        return message("ripped to {cover}", cover=Length(panel.ripped))
    return message("whole")


def _made(panel: Panel) -> tuple[object, ...]:
    """Return what panels have in common that are made alike."""
    ends = tuple((end.at, end.ending, round(end.bevel, 6)) for end in panel.ends)
    return panel.edges, ends, round(panel.width, 4), round(panel.length, 4)


def _cuts(ends: Sequence[EndCut]) -> Message:
    """Return how an end of a panel is cut."""
    told = [
        message("{bevel}°", bevel=Angle(abs(end.bevel), 1)) if abs(end.bevel) > SQUARE else message("square")
        for end in ends
    ]
    return message("{cuts}", cuts=Listed(tuple(told), "comma")) if told else message("square")
