"""The whole flat pattern of a piece, small, and the tapes that are laid along it for its screws."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import shapely

from trimwright.model.layout import Layout, Part
from trimwright.model.screws import Screw
from trimwright.model.units import Tape

from ...data.traces import is_mirrored
from ..ink.drawing import Item, Stroke, Words
from ..ink.letters import unbroken, wrapped
from ..ink.shapes import lines
from ..ink.style import INK, LINE, SMALL
from ..paper.flow import Block
from .batches import Batch
from .pattern import bend_items, between, metal_items, screw_items
from .placement import LEADER, Mark, Plate, longest, merged, room_for, row

TALLEST = 1.5
"""Height of the pattern at most, inches."""

SIDE = 0.75
"""White beside it, for the width and for the last tape marks, inches."""

TOP = 0.32
"""Room above it for the length, inches."""


@dataclass(frozen=True, slots=True)
class Row:
    """Screws that one laying of the tape serves.

    Attributes:
        part: The piece that they are drawn on.
        screws: Its own screws of these rows.
        says: Whose rows these are.
    """

    part: Part
    screws: tuple[Screw, ...]
    says: str


def whole(batch: Batch, layout: Layout, width: float) -> list[Block]:
    """Return the whole pattern of the pieces that are cut alike, with a tape for each different row of screws."""
    show = layout.scene.tape
    own = layout.screws_of(batch.first.mark)
    rows = _rows(batch, layout.screws, show)
    first = _pattern(batch.first, own, rows[0] if rows else None, width, show)
    return [first, *(_tape(one, width, show) for one in rows[1:])]


def _rows(batch: Batch, screws: Iterable[Screw], show: Tape) -> list[Row]:
    """Return the rows of all pieces, those that read the same on a tape together."""
    parts = {part.mark: part for part in batch.parts}
    single: dict[tuple[str, float], list[Screw]] = {}
    for screw in screws:
        if screw.mark in parts:
            single.setdefault((screw.mark, round(screw.across, 4)), []).append(screw)
    same: dict[tuple[str, ...], list[tuple[str, float]]] = {}
    for key, own in single.items():
        same.setdefault(tuple(show(screw.at) for screw in own), []).append(key)
    result = []
    for keys in same.values():
        drawn = keys[0][0]
        where: dict[str, list[str]] = {}
        for mark, across in keys:
            where.setdefault(_place(parts[mark], across, show), []).append(mark)
        whose: dict[str, list[str]] = {}
        for place, marks in where.items():
            whose.setdefault(", ".join(marks), []).append(place)
        says = "; ".join(f"{marks}: {' and '.join(places)}" for marks, places in whose.items())
        own_rows = [single[key] for key in keys if key[0] == drawn]
        result.append(Row(parts[drawn], tuple(screw for one in own_rows for screw in one), says))
    return result


def _place(part: Part, across: float, show: Tape) -> str:
    """Return where a row of screws is: ``top, 1" from the inboard edge``."""
    section = part.run.section
    leg = next(leg for leg in section.legs if section.v[leg.strip] <= across <= section.v[leg.strip + 1])
    return f"{leg.name}, {show(across)} from the inboard edge"


def _pattern(part: Part, screws: Sequence[Screw], first: Row | None, width: float, show: Tape) -> Block:
    """Return the whole pattern with all its screws, and the tape marks of its first row."""
    low, high = part.sheet.extent
    _, inboard, _, outboard = part.sheet.pattern.bounds
    plate, left, right = _laid_out(part, width, TALLEST / (outboard - inboard), inboard - TOP)
    top, bottom = -TOP, -TOP - (outboard - inboard) * plate.scale
    everything = shapely.box(low - 1, inboard - 1, high + 1, outboard + 1)
    items: list[Item] = [*metal_items(part, plate, everything), *bend_items(part, plate, everything, 0.004)]
    for screw in screws:
        items += screw_items((plate.x(low + screw.at), plate.y(screw.across)))
    items += between((left, top + 0.1), (right, top + 0.1), show(high - low))
    items += between((right + 0.12, top), (right + 0.12, bottom), show(outboard - inboard))
    ends = ("high end", "low end") if plate.mirrored else ("low end", "high end")
    items += [
        Words(ends[0], (left - 0.06, top + 0.06), SMALL, "end", bold=ends[0] == "low end", name="end"),
        Words(ends[1], (right + 0.06, top + 0.06), SMALL, bold=ends[1] == "low end", name="end"),
    ]
    return (
        _with_marks(items, plate, first, bottom, width, show) if first else Block(-bottom + 0.1, tuple(items))
    )


def _tape(one: Row, width: float, show: Tape) -> Block:
    """Return a tape that is laid along a piece, with its screws on it."""
    plate, left, right = _laid_out(one.part, width, 1.0, 0.0)
    y = -0.1
    hook = plate.x(one.part.low)
    items: list[Item] = [
        Stroke(((left, y), (right, y)), 0.012, INK, name="tape"),
        Stroke(((hook, y + 0.08), (hook, y - 0.08)), 0.025, INK, name="tape"),
    ]
    for screw in one.screws:
        items += screw_items((plate.x(one.part.low + screw.at), y))
    return _with_marks(items, plate, one, y - 0.06, width, show)


def _laid_out(part: Part, width: float, most: float, top: float) -> tuple[Plate, float, float]:
    """Return the plate of a whole piece, and the paper's x of its two ends."""
    low, high = part.sheet.extent
    scale = min((width - 2 * SIDE) / (high - low), most)
    left = SIDE + (width - 2 * SIDE - (high - low) * scale) / 2
    right = left + (high - low) * scale
    mirrored = is_mirrored(part)
    return Plate(low, (right if mirrored else left, top), scale, mirrored), left, right


def _with_marks(items: list[Item], plate: Plate, one: Row, bottom: float, width: float, show: Tape) -> Block:
    """Return ``items`` with the tape marks of a row under them, or listed where they are too many, and whose."""
    low = one.part.low
    marks = merged((Mark((plate.x(low + screw.at), bottom), show(screw.at)) for screw in one.screws), 0)
    says = f"Screws, from the low end. {one.says}."
    base = bottom - 0.05
    if room_for(marks) <= width:
        items = [*items, *row(marks, bottom - 0.03, 0.0, width, up=False)]
        base -= LEADER * 0.7 + 0.01 + longest(marks)
    else:
        says += f" {', '.join(unbroken(mark.text) for mark in sorted(marks, key=_from_low(plate)))}."
    texts = wrapped(says, SMALL, width)
    return Block(-base + SMALL * LINE * len(texts) + 0.08, (*items, *lines(texts, (0.0, base), SMALL)))


def _from_low(plate: Plate) -> Callable[[Mark], float]:
    """Return what sorts marks from the low end."""
    return lambda mark: -mark.at[0] if plate.mirrored else mark.at[0]
