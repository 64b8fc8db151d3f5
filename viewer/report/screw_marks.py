"""Where the screws of a piece go, as a tape reads it: of a cap, wing by wing."""

from __future__ import annotations

from trimwright.model.layout import Layout, Part
from trimwright.model.message import Value, message
from trimwright.model.profiles.leg_words import leg_words
from trimwright.model.units import Tape

from ..words.speaker import Speaker
from .words import marks_of


def marks_by_leg(layout: Layout, part: Part, show: Tape) -> dict[str, str]:
    """Return the tape marks of a piece's screws, from its low end, by the name of the leg that they go through.

    Legs with the same marks are one entry, under the name of the first.
    """
    section, screws = part.run.section, layout.screws_of(part.mark)
    found: dict[str, str] = {}
    for leg in section.legs:
        first, last = section.v[leg.strip], section.v[leg.strip + 1]
        marks = marks_of([screw.at for screw in screws if first <= screw.across <= last], show)
        if marks and marks not in found.values():
            found[leg.name] = marks
    return found


def screws_told(layout: Layout, part: Part, say: Speaker) -> str:
    """Return the tape marks of a piece's screws in words; empty where it has none."""
    found = marks_by_leg(layout, part, say.tape)
    if len(found) < 2:
        return "".join(found.values())
    each: list[tuple[Value, str]] = [(leg_words(leg), places) for leg, places in found.items()]
    return "; ".join(say(message("{leg}: {places}", leg=leg, places=places)) for leg, places in each)
