"""The list of the continuous cleats that panels hook: each with its run, its size and how it is fastened."""

from __future__ import annotations

from trimwright.model.layout import Layout
from trimwright.model.message import Length, counted, message
from trimwright.model.panels.valley_cleats import FLANGE, LIP, has_valley_cleats
from trimwright.model.roof.name_words import name_words

from .record import Cell, List, ListField


def cleat_list(layout: Layout) -> List:
    """Return every continuous cleat, run by run."""
    runs = {run.name: run for run in layout.runs}
    rows: list[tuple[Cell, ...]] = []
    notes = {}
    for cleat in layout.cleats:
        on_pan = has_valley_cleats(runs[cleat.at])
        count = len(cleat.screws)
        held = (
            counted("{count} rivet", "{count} rivets", count=count)
            if on_pan
            else counted("{count} screw", "{count} screws", count=count)
        )
        rows.append((cleat.mark, name_words(cleat.at), cleat.sheet.section.width, cleat.length, held))
        if on_pan:
            notes["valley"] = message(
                "Those of a valley: a flange of {flange} on the pan, set off from it so that a folded edge slips under "
                "the lip of {lip}, which points to the middle. Bed the flange in sealant and rivet it to the pan "
                "alone: the pan moves. The ends are cut to the eave and to the ridge.",
                flange=Length(FLANGE),
                lip=Length(LIP),
            )
        else:
            notes["edge"] = message("Those of an eave or a rake are screwed through the trim into the deck.")
    fields = (
        ListField(message("Cleat")),
        ListField(message("Where"), share=1.6),
        ListField(message("Width"), "length"),
        ListField(message("Length"), "length"),
        ListField(message("Fastened"), share=1.2),
    )
    return List("cleats", message("cleats"), fields, tuple(rows), tuple(notes.values()))
