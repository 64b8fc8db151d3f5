"""The list of the continuous cleats that panels hook: each with its run, its size and how it is fastened."""

from __future__ import annotations

from trimwright.model.layout import Layout
from trimwright.model.message import Length, Listed, Message, counted, message
from trimwright.model.panels.valley_cleats import FLANGE, LIP, has_valley_cleats
from trimwright.model.roof.name_words import name_words

from .record import Cell, List, ListField


def cleat_list(layout: Layout) -> List:
    """Return every continuous cleat, run by run."""
    runs = {run.name: run for run in layout.runs}
    rows: list[tuple[Cell, ...]] = []
    notes: dict[str, Message] = {}
    for cleat in layout.cleats:
        on_pan = has_valley_cleats(runs[cleat.at])
        count = len(cleat.screws)
        held = (
            counted("{count} rivet", "{count} rivets", count=count)
            if on_pan
            else counted("{count} screw", "{count} screws", count=count)
        )
        laps = tuple(
            message("over {mark}", mark=mark) if end.lies == "over" else message("under {mark}", mark=mark)
            for end in cleat.laps
            for mark in end.others
        )
        lapped = message("{laps}", laps=Listed(laps)) if laps else None
        rows.append((cleat.mark, name_words(cleat.at), cleat.sheet.section.width, cleat.length, lapped, held))
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
        for end in cleat.laps:
            if end.lap is not None and end.lies == "under":
                low, high = end.reach
                notes["lap"] = message(
                    "Lay them {lap} over each other, up a slope the upper one over the lower. Take the folded edge off "
                    "the one underneath, {back} from its end, so that the two nest, and drive one screw through both, "
                    "{middle} from the end of the one on top.",
                    lap=Length(end.lap),
                    back=Length(high - low),
                    middle=Length(end.lap / 2),
                )
    fields = (
        ListField(message("Cleat")),
        ListField(message("Where"), share=1.6),
        ListField(message("Width"), "length"),
        ListField(message("Length"), "length"),
        ListField(message("Laps"), share=1.6),
        ListField(message("Fastened"), share=1.2),
    )
    return List("cleats", message("cleats"), fields, tuple(rows), tuple(notes.values()))
