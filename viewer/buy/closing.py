"""What closes the roof: closures by kind, the places that sealant closes, and what vented closures leave for air."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from trimwright.model.layout import Layout
from trimwright.model.message import Fine, Length, Message, counted, message
from trimwright.model.panels.catalogue import closure_catalogue
from trimwright.model.panels.sealed import Place, Sealed
from trimwright.model.roof.name_words import name_words
from trimwright.model.takeoff.record import Takeoff

from .record import Cell, List, ListField

PLACES: dict[Place, Message] = {
    "round a seam": message("round seams, between two closures"),
    "edge of the panels": message("edges of panels at valleys, between two closures"),
    "end of closures": message("ends of the closures"),
    "foot of a seam": message("feet of seams, between two hooks"),
    "inside corner": message("inside corners, between two hooks of one panel"),
}
"""What sealant closes, in words."""

FORMED: Mapping[str, Message] = {
    "before cutting": message(
        "Closures come formed: they are cut to length and round the seams on the formed piece."
    ),
    "after cutting": message("Closures are cut flat, to length and round the seams, and formed afterwards."),
}
"""What is done to a closure before its bends and what after."""


def closure_list(layout: Layout, takeoff: Takeoff) -> List:
    """Return the closures by kind and length."""
    rows = tuple((closure.what, closure.count, closure.length) for closure in takeoff.closures)
    fields = (
        ListField(message("Closure"), share=1.2),
        ListField(message("Count"), "count", 0.7),
        ListField(message("Length"), "length"),
    )
    notes = (
        *_how(layout, {str(row[0]) for row in rows}),
        *_on_pans(layout),
        FORMED[layout.scene.shop.forming],
    )
    return List("closures", message("closures"), fields, rows, notes)


def _how(layout: Layout, kinds: set[str]) -> Iterator[Message]:
    """Yield how each kind of closure is made and set."""
    known = {**closure_catalogue(), **layout.scene.closure}
    for name in sorted(kinds):
        spec = known[name]
        if spec.form == "strip":
            yield message(
                "{kind}: strips of foam {depth} deep, pressed in between the seams and bedded in sealant; the screws "
                "go through them and the pan into the deck. Lengths are those of the longer side, where ends are cut "
                "on the skew.",
                kind=name,
                depth=Length(spec.depth),
            )
        elif spec.hole is not None:
            yield message(
                "{kind}: folded of perforated sheet, holes of {hole}, {apart} apart, rows staggered: {share} open.",
                kind=name,
                hole=Fine(spec.hole),
                apart=Fine(spec.apart),
                share=f"{spec.open_share:.0%}",
            )
        else:
            yield message("{kind}: foot and flange in a bead of sealant each.", kind=name)


def _on_pans(layout: Layout) -> Iterator[Message]:
    """Yield what is made and set otherwise of the closures that stand on valleys' pans."""
    heights = {closure.at: math.inf for closure in layout.closures}
    for closure in layout.closures:
        heights[closure.at] = min(heights[closure.at], closure.height)
    higher = [closure.height - heights[closure.at] for closure in layout.closures if closure.pan is not None]
    if higher:
        yield counted(
            "{count} of them stands at a valley's head, on the pan and not on a panel, from the edge of the panels to "
            "the rib: it is {higher} higher, its end follows the rib up and meets the one from the other side over "
            "it. Bed it and its end in sealant, and drive no screw through the pan.",
            "{count} of them stand at valleys' heads, on the pans and not on panels, from the edge of the panels to "
            "the rib: they are up to {higher} higher, their ends follow the rib up and meet those from the other side "
            "over it. Bed them and their ends in sealant, and drive no screw through a pan.",
            count=len(higher),
            higher=Length(max(higher)),
        )


def sealed_list(layout: Layout) -> List:
    """Return the places that sealant closes, those of one run and kind on one line."""
    found: dict[tuple[str, Place], list[Sealed]] = {}
    for one in layout.sealed:
        found.setdefault((one.at, one.place), []).append(one)
    rows: list[tuple[Cell, ...]] = [
        (
            name_words(at),
            PLACES[place],
            len(own),
            sum(one.bead for one in own) / len(own),
            sum(one.bead for one in own),
        )
        for (at, place), own in found.items()
    ]
    fields = (
        ListField(message("Where"), share=1.3),
        ListField(message("What sealant closes"), share=1.8),
        ListField(message("Places"), "count", 0.7),
        ListField(message("Bead at each"), "length"),
        ListField(message("In all"), "length"),
    )
    note = message(
        "Open until they are sealed: metal stops short there. Round a seam the bead goes up one side of it, over its "
        "fold and down the other. Beads in laps, in corners and under and over closures are beside these."
    )
    return List("sealed", message("what is closed by sealant"), fields, tuple(rows), (note,))


def vent_list(layout: Layout) -> List:
    """Return what is free for air where closures are vented."""
    rows: list[tuple[Cell, ...]] = [
        (vent.at, vent.kind, vent.length, f"{vent.per_foot:.1f}", f"{vent.free:.0f}") for vent in layout.vents
    ]
    fields = (
        ListField(message("Where"), share=1.3),
        ListField(message("Closure"), share=1.2),
        ListField(message("Length"), "length"),
        ListField(message("Free, in² per ft")),
        ListField(message("Free, in²")),
    )
    notes = [
        counted(
            "{count} run lets air out. What counts is the smaller of the closures' holes and the opening over the "
            "panels' turned-up ends; both sides are in it.",
            "{count} runs let air out. What counts is the smaller of the closures' holes and the opening over the "
            "panels' turned-up ends; both sides are in it.",
            count=len(rows),
        ),
        message(
            "Advice only: deck and underlay must be open along the run too, and as much air must come in low down. How "
            "much a roof needs, the local code says."
        ),
    ]
    return List("air", message("free for air"), fields, tuple(rows), tuple(notes))
