"""The whole flat pattern of a piece, small, and the tapes that are laid along it for its screws."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

import shapely

from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length, Listed, Message, message
from trimwright.model.profiles.leg_words import leg_words
from trimwright.model.screws import Screw

from ...data.pattern_lines import is_mirrored
from ...words.speaker import Speaker
from ..ink.drawing import Item, Stroke, Words
from ..ink.letters import unbroken, width_of, wrapped
from ..ink.shapes import lines
from ..ink.style import INK, LINE, SMALL
from ..paper.flow import Block
from ..paper.phrases import ENDS
from .batches import Batch
from .pattern import bend_items, between, metal_items, screw_items
from .placement import LEADER, Dimension, Placement, longest, merged, room_for, row

TALLEST = 1.5
"""Height of the pattern at most, inches."""

SIDE = 0.75
"""White beside it at least, for the width and for the last tape marks, inches."""

TOP = 0.32
"""Room above it for the length, inches."""


@dataclass(frozen=True, slots=True)
class ScrewRow:
    """Screws that one laying of the tape serves.

    Attributes:
        part: The piece that they are drawn on.
        screws: Its own screws of these rows.
        says: Whose rows these are.
    """

    part: Part
    screws: tuple[Screw, ...]
    says: str


def whole(batch: Batch, layout: Layout, width: float, say: Speaker) -> list[Block]:
    """Return the whole pattern of the pieces that are cut alike, with a tape for each different row of screws."""
    own = layout.screws_of(batch.first.mark)
    rows = _rows(batch, layout.screws, say)
    first = _pattern(batch.first, own, rows[0] if rows else None, width, say)
    return [first, *(_tape(one, width, say) for one in rows[1:])]


def _rows(batch: Batch, screws: Iterable[Screw], say: Speaker) -> list[ScrewRow]:
    """Return the rows of all pieces, those that read the same on a tape together."""
    parts = {part.mark: part for part in batch.parts}
    single: dict[tuple[str, float], list[Screw]] = {}
    for screw in screws:
        if screw.mark in parts:
            single.setdefault((screw.mark, round(screw.across, 4)), []).append(screw)
    same: dict[tuple[str, ...], list[tuple[str, float]]] = {}
    for key, own in single.items():
        same.setdefault(tuple(say.tape(screw.at) for screw in own), []).append(key)
    result = []
    for keys in same.values():
        drawn = keys[0][0]
        own_rows = [single[key] for key in keys if key[0] == drawn]
        screws_of_all = tuple(screw for one in own_rows for screw in one)
        result.append(ScrewRow(parts[drawn], screws_of_all, _whose(keys, parts, say)))
    return result


def _whose(keys: Iterable[tuple[str, float]], parts: Mapping[str, Part], say: Speaker) -> str:
    """Return which pieces have a row of screws, and where: ``R1-1, R1-2: top, 1" from the inboard edge``."""
    where: dict[str, list[str]] = {}
    for mark, across in keys:
        where.setdefault(say(_where(parts[mark], across)), []).append(mark)
    whose: dict[tuple[str, ...], list[str]] = {}
    for place, marks in where.items():
        whose.setdefault(tuple(marks), []).append(place)
    return "; ".join(
        say("{marks}: {places}", marks=Listed(marks, "comma"), places=Listed(tuple(places)))
        for marks, places in whose.items()
    )


def _where(part: Part, across: float) -> Message:
    """Return where a row of screws is: ``top, 1" from the inboard edge``."""
    section = part.run.section
    leg = next(leg for leg in section.legs if section.v[leg.strip] <= across <= section.v[leg.strip + 1])
    return message("{leg}, {across} from the inboard edge", leg=leg_words(leg.name), across=Length(across))


def _pattern(
    part: Part, screws: Sequence[Screw], first: ScrewRow | None, width: float, say: Speaker
) -> Block:
    """Return the whole pattern with all its screws, and the tape marks of its first row."""
    low, high = part.sheet.extent
    _, inboard, _, outboard = part.sheet.pattern.bounds
    place, left, right = _laid_out(part, width, TALLEST / (outboard - inboard), inboard - TOP, say)
    top, bottom = -TOP, -TOP - (outboard - inboard) * place.scale
    everything = shapely.box(low - 1, inboard - 1, high + 1, outboard + 1)
    items: list[Item] = [*metal_items(part, place, everything), *bend_items(part, place, everything, 0.004)]
    for screw in screws:
        items += screw_items((place.x(low + screw.at), place.y(screw.across)))
    items += between((left, top + 0.1), (right, top + 0.1), say.tape(high - low))
    items += between((right + 0.12, top), (right + 0.12, bottom), say.tape(outboard - inboard))
    items += _end_names(place.mirrored, left, right, top + 0.06, say)
    return (
        _with_marks(items, place, first, bottom, width, say) if first else Block(-bottom + 0.1, tuple(items))
    )


def _end_names(mirrored: bool, left: float, right: float, y: float, say: Speaker) -> list[Item]:
    """Return the names of both ends, beside the pattern."""
    low, high = say(ENDS["low"]), say(ENDS["high"])
    at_left, at_right = (high, low) if mirrored else (low, high)
    return [
        Words(at_left, (left - 0.06, y), SMALL, "end", bold=not mirrored, name="end"),
        Words(at_right, (right + 0.06, y), SMALL, bold=mirrored, name="end"),
    ]


def _side(say: Speaker) -> float:
    """Return the white beside a pattern, wide enough for the names of its ends, inches."""
    return max(SIDE, *(width_of(say(name), SMALL, bold=True) + 0.12 for name in ENDS.values()))


def _tape(one: ScrewRow, width: float, say: Speaker) -> Block:
    """Return a tape that is laid along a piece, with its screws on it."""
    place, left, right = _laid_out(one.part, width, 1.0, 0.0, say)
    y = -0.1
    hook = place.x(one.part.low)
    items: list[Item] = [
        Stroke(((left, y), (right, y)), 0.012, INK, name="tape"),
        Stroke(((hook, y + 0.08), (hook, y - 0.08)), 0.025, INK, name="tape"),
    ]
    for screw in one.screws:
        items += screw_items((place.x(one.part.low + screw.at), y))
    return _with_marks(items, place, one, y - 0.06, width, say)


def _laid_out(
    part: Part, width: float, most: float, top: float, say: Speaker
) -> tuple[Placement, float, float]:
    """Return where a whole piece lies, and the paper's x of its two ends."""
    low, high = part.sheet.extent
    side = _side(say)
    scale = min((width - 2 * side) / (high - low), most)
    left = side + (width - 2 * side - (high - low) * scale) / 2
    right = left + (high - low) * scale
    mirrored = is_mirrored(part)
    return Placement(low, (right if mirrored else left, top), scale, mirrored), left, right


def _with_marks(
    items: list[Item], place: Placement, one: ScrewRow, bottom: float, width: float, say: Speaker
) -> Block:
    """Return ``items`` with the tape marks of a row under them, or listed where they are too many, and whose."""
    low = one.part.low
    marks = merged(
        (Dimension((place.x(low + screw.at), bottom), say.tape(screw.at)) for screw in one.screws), 0
    )
    says = say("Screws, from the low end. {rows}.", rows=one.says)
    base = bottom - 0.05
    if room_for(marks) <= width:
        items = [*items, *row(marks, bottom - 0.03, 0.0, width, up=False)]
        base -= LEADER * 0.7 + 0.01 + longest(marks)
    else:
        places = ", ".join(unbroken(mark.text) for mark in sorted(marks, key=_from_low(place)))
        says = say("Screws, from the low end. {rows}. {places}.", rows=one.says, places=places)
    texts = wrapped(says, SMALL, width)
    return Block(-base + SMALL * LINE * len(texts) + 0.08, (*items, *lines(texts, (0.0, base), SMALL)))


def _from_low(place: Placement) -> Callable[[Dimension], float]:
    """Return what sorts marks from the low end."""
    return lambda mark: -mark.at[0] if place.mirrored else mark.at[0]
