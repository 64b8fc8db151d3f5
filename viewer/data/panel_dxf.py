"""Write the flat patterns of panels, closures and continuous cleats as DXF, as those of the trim are.

What is cut alike is in one file, named by the first of them; the text in it says which others it is for.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trimwright.model.layout import Layout
from trimwright.model.message import Listed, Message, message
from trimwright.model.panels.cleats import Cleat
from trimwright.model.panels.closures import Closure
from trimwright.model.panels.record import Panel
from trimwright.model.panels.steps import panel_steps

from ..words.speaker import ENGLISH_IN_FEET, Speaker
from .dxf import drawn
from .dxf_library import Document
from .pattern_lines import FROM_WHERE, PER_INCH, PatternLine, Unit, crosses, marked, mirrors, sheet_lines

Formed = Panel | Closure | Cleat

DIGITS = 4
"""Decimals of an inch to which two patterns are one."""

NAMED = 12
"""So many names are written out beside a pattern; of more, how many there are."""


@dataclass(frozen=True, slots=True, eq=False)
class PanelPattern:
    """A flat pattern with all that is cut to it.

    Attributes:
        first: What it is drawn for.
        names: Names and marks of all that is cut to it, in their order.
    """

    first: Formed
    names: tuple[str, ...]

    @property
    def name(self) -> str:
        """Name of its file, without its ending: of names with commas, without these."""
        return self.names[0].replace(",", "")


def panel_patterns(layout: Layout) -> tuple[PanelPattern, ...]:
    """Return the patterns of all panels, of all closures of metal, and of all continuous cleats, each form once."""
    formed: list[Formed] = [*layout.panels, *layout.closures, *layout.cleats]
    found: dict[object, tuple[Formed, list[str]]] = {}
    for one in formed:
        if isinstance(one, Closure) and one.foam:
            continue
        low = one.sheet.extent[0]
        outline = (one.sheet.outline - [low, 0.0]).round(DIGITS) + 0.0
        angles = tuple(round(bend.angle, DIGITS) for bend in one.sheet.section.bends)
        screws = one.screws if isinstance(one, Cleat) else ()
        key = (type(one), outline.tobytes(), angles, tuple(round(at, DIGITS) for at in screws))
        found.setdefault(key, (one, []))[1].append(_name(one))
    return tuple(PanelPattern(first, tuple(names)) for first, names in found.values())


def panel_document(pattern: PanelPattern, unit: Unit = "in", say: Speaker = ENGLISH_IN_FEET) -> Document:
    """Return the DXF document of a pattern.

    Args:
        pattern: The pattern.
        unit: Of the file's numbers.
        say: Says what is written beside the lines.
    """
    one, scale = pattern.first, PER_INCH[unit]
    return drawn(
        _lines(one, scale), (_title(one), _for(pattern), FROM_WHERE), mirrors(one.placement), unit, say
    )


def cleat_lines(cleat: Cleat, scale: float = 1.0) -> Iterator[PatternLine]:
    """Yield the lines of a continuous cleat's flat pattern, ``scale`` of the lengths in what they say: 1 for inches."""
    yield from sheet_lines(cleat.sheet, scale)
    for end in cleat.laps:
        yield from marked(end.steps, cleat.sheet.extent[0])
    yield from crosses(cleat.screws_flat)


def _lines(one: Formed, scale: float) -> Iterator[PatternLine]:
    if isinstance(one, Cleat):
        yield from cleat_lines(one, scale)
        return
    yield from sheet_lines(one.sheet, scale)
    if isinstance(one, Panel):
        yield from marked(panel_steps(one), one.sheet.extent[0])


def _name(one: Formed) -> str:
    return one.mark if isinstance(one, Cleat) else one.name


def _title(one: Formed) -> Message:
    """Return what a pattern is of."""
    match one:
        case Panel():
            return message("{name}: panel", name=one.name)
        case Closure():
            return message("{name}: closure {kind}", name=one.name, kind=one.kind)
        case _:
            return message("{name}: continuous cleat", name=one.mark)


def _for(pattern: PanelPattern) -> Message:
    """Return what is cut to a pattern."""
    if len(pattern.names) <= NAMED:
        return message("for {names}", names=Listed(pattern.names, "comma"))
    return message("for {first} and {count} more", first=pattern.names[0], count=len(pattern.names) - 1)
