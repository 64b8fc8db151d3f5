"""The cut sheet: what it takes to mark, cut and fold one piece by hand, on one page or more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Fine, Length, Listed, Message, message
from trimwright.model.metals import METALS
from trimwright.model.scene.schema import MetalSpec

from ...data.pattern_lines import is_mirrored
from ...display.ends import meets
from ...report.sureness import fit_told
from ...words.speaker import Speaker
from ..ink.drawing import Area, Drawing, Item, Stroke, Words, moved
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines, rectangle
from ..ink.style import BODY, LINE, SMALL, SOFT
from ..paper.flow import Block, flow
from ..paper.page import Imprint, Paper, body_of, paged
from ..paper.phrases import HANDED, SIDES
from . import pattern
from .batches import Batch, batches
from .both_ends import held
from .step_pictures import SAMPLES, side_by_side, step_cells
from .whole_pattern import whole

BESIDE = 4
"""Steps beside each other on the paper."""

GUTTER = 0.14
"""White between two of them, inches."""

TALL, SHORT, LEAST = 4.75, 3.4, 2.6
"""Height of an enlarged end with many steps at most, of one with few, and of any at least, inches."""


def cut_sheets(layout: Layout, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return the cut sheets of all pieces, one for each distinct piece, in the order of their marks."""
    return [page for batch in batches(layout) for page in cut_sheet(batch, layout, paper, imprint)]


def cut_sheet(batch: Batch, layout: Layout, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return the cut sheet of pieces that are cut alike: one page, or more when it takes them.

    Args:
        batch: The pieces.
        layout: What they belong to.
        paper: Its size.
        imprint: What every page says.
    """
    box, say, ends = body_of(paper, imprint), imprint.say, batch.first.ends
    blocks = [
        _overview(batch, layout, box.width, say),
        *whole(batch, layout, box.width, say),
        *_legend(box.width, say),
    ]
    room = box.height - sum(block.height for block in blocks)
    blocks += [
        *_end(batch, layout, ends.low, box.width, say, room),
        *_end(batch, layout, ends.high, box.width, say),
    ]
    pages = flow(blocks, box)
    asides = [_aside(batch, number, len(pages), say) for number in range(1, len(pages) + 1)]
    return paged(batch.title(say), pages, paper, imprint, asides)


def _aside(batch: Batch, number: int, count: int, say: Speaker) -> str:
    """Return the hand of a piece and which of its sheets this is."""
    hand = batch.first.run.hand
    words = [say(HANDED[hand])] if hand else []
    if count > 1:
        words.append(say("sheet {number} of {count}", number=number, count=count))
    return "  ·  ".join(words)


def _overview(batch: Batch, layout: Layout, width: float, say: Speaker) -> Block:
    """Return the formed piece beside what is known of it."""
    facts = _facts(batch, layout, say)
    wide = width * 0.5
    x, names = wide + 0.2, max(0.8, *(width_of(name, SMALL, bold=True) + 0.1 for name, _ in facts))
    items: list[Item] = []
    y = 0.0
    for name, text in facts:
        texts = wrapped(text, SMALL, width - x - names)
        items += lines((name,), (x, y), SMALL, bold=True, color=SOFT)
        items += lines(texts, (x + names, y), SMALL)
        y -= SMALL * LINE * len(texts) + 0.045
    height = max(2.0, -y)
    return Block(height + 0.05, (*held(batch.first, wide, height, say), *items))


def _facts(batch: Batch, layout: Layout, say: Speaker) -> list[tuple[str, str]]:
    """Return what the installer asks first, by name."""
    part = batch.first
    runs = dict.fromkeys(part.run.name for part in batch.parts)
    length, width = Length(part.length), Length(part.run.section.width)
    marks = Listed(batch.marks, "comma")
    facts = [
        (say("Cut"), say("{count}: {marks}", count=len(batch.parts), marks=marks)),
        (say("Goes on"), ", ".join(runs)),
        (say("Hand"), _hand(part, say)),
        (say("Profile"), part.run.section.profile),
        (say("Metal"), _metal(layout.scene.metal, say)),
        (say("Blank"), say("{length} long, {width} wide when flat", length=length, width=width)),
        (say("Marks"), say("from the low end of the blank; set them all out before that end is cut")),
        (say("Low end"), _meets(batch, [part.ends.low for part in batch.parts], say)),
        (say("High end"), _meets(batch, [part.ends.high for part in batch.parts], say)),
    ]
    fits = {fit_told(layout, mark) for mark in batch.marks} - {None}
    facts += [(say("Cut to fit"), say(fit)) for fit in fits if fit is not None]
    if any(end.kind.aloft for end in part.ends):
        aloft = say("It is fitted at the top of the roof: tie off before you carry it up.")
        facts.append((say("Caution"), aloft))
    return facts


def _metal(spec: MetalSpec, say: Speaker) -> str:
    metal, thickness = METALS[spec.kind], Fine(spec.thickness)
    name, label = metal.title, metal.label(spec.thickness)
    if not label:
        return say("{metal}, {thickness}", metal=name, thickness=thickness)
    return say("{metal}, {thickness} ({label})", metal=name, thickness=thickness, label=label)


def _hand(part: Part, say: Speaker) -> str:
    """Return the hand of a piece, and from where its low end is seen on which side."""
    side = SIDES["right" if is_mirrored(part) else "left"]
    if part.run.hand:
        hand = HANDED[part.run.hand]
        return say("{hand}; seen from outside its low end is at the {side}", hand=hand, side=side)
    if len(part.run.edge.faces) == 2:
        return say("none; seen from its right wing its low end is at the {side}", side=side)
    return say("none; seen from outside its low end is at the {side}", side=side)


def _meets(batch: Batch, ends: Sequence[End], say: Speaker) -> str:
    """Return what the pieces of a batch meet at one end, each wording once with the marks it holds for."""
    found: dict[str, list[str]] = {}
    for mark, end in zip(batch.marks, ends, strict=True):
        found.setdefault(say(_bedded(end)), []).append(mark)
    if len(found) == 1:
        return next(iter(found))
    return "; ".join(
        say("{marks}: {meets}", marks=Listed(tuple(marks), "comma"), meets=told)
        for told, marks in found.items()
    )


def _bedded(end: End) -> Message:
    """Return what an end meets, and whether it is bedded in sealant."""
    if end.sealed:
        return message("{meets}, in sealant", meets=meets(end))
    return meets(end) if end.lap is None else message("{meets}, no sealant", meets=meets(end))


def _end(
    batch: Batch, layout: Layout, end: End, width: float, say: Speaker, room: float = 0.0
) -> list[Block]:
    """Return one end enlarged, its first steps beside it and the others below.

    Args:
        batch: The pieces.
        layout: What they belong to.
        end: The end of the first of them.
        width: To fill, inches.
        say: Puts it into words.
        room: What is left of the page, inches; the end is drawn smaller when it then still fits there.
    """
    part = batch.first
    cell = (width - (BESIDE - 1) * GUTTER) / BESIDE
    marks = {*end.others} if len(batch.parts) > 1 else set()
    cells = step_cells(part, end, cell, say, marks)
    if end.at == "high" and end.cut.is_square:
        says = say("High end, square across, {length} from the low end", length=Length(part.length))
        blocks = [Block(0.24, (Words(says, (0.0, -0.13), BODY, bold=True, name="caption"),), keep=True)]
    else:
        own = layout.screws_of(part.mark)
        wide = width - 2 * (cell + GUTTER) - 0.1
        most = SHORT if len(cells) <= 4 else TALL
        for height in [min(most, room - 0.05), most] if room > LEAST else [most]:
            figure = pattern.end_block(part, end, wide, height, say, own)
            block, rest = _with_steps(figure, cells, wide, cell)
            if block.height <= room:
                break
        blocks, cells = [block], rest
    rows = [cells[first : first + BESIDE] for first in range(0, len(cells), BESIDE)]
    return [*blocks, *(side_by_side(row, cell + GUTTER) for row in rows)]


def _with_steps(figure: Block, cells: list[Block], wide: float, cell: float) -> tuple[Block, list[Block]]:
    """Return an end with as many steps as stand beside it, two in a row, and the steps that are left."""
    items, used = figure.items, 0.0
    while cells:
        row = side_by_side(cells[:2], cell + GUTTER)
        if used and used + row.height > figure.height + 0.8:
            break
        items += moved(row.items, (wide + 0.1 + GUTTER, -used))
        used += row.height
        cells = cells[2:]
    return Block(max(figure.height + 0.05, used), items), cells


def _legend(width: float, say: Speaker) -> list[Block]:
    """Return how the drawings are read, as rows of samples; none of it hangs on color alone."""
    rows: list[list[Sample]] = [[]]
    for name, (weight, color, dash) in pattern.SAMPLES + SAMPLES:
        sample = Sample(say(name), weight, color, dash)
        if rows[-1] and _length([*rows[-1], sample]) > width:
            rows.append([])
        rows[-1].append(sample)
    return [Block(0.26, _sampled(row, max((width - _length(row)) / 2, 0.0)), keep=True) for row in rows]


@dataclass(frozen=True, slots=True)
class Sample:
    """A line of a drawing and what it is called; of no weight: an area."""

    name: str
    weight: float
    color: str
    dash: tuple[float, ...]


def _length(samples: Sequence[Sample]) -> float:
    """Return how long a row of samples is, inches."""
    return sum(0.35 + width_of(sample.name, SMALL) + 0.12 for sample in samples) - 0.12


def _sampled(samples: Sequence[Sample], x: float) -> tuple[Item, ...]:
    items: list[Item] = []
    y = -0.1
    for sample in samples:
        if sample.weight:
            line = ((x, y), (x + 0.3, y))
            items.append(Stroke(line, sample.weight, sample.color, sample.dash, name="sample"))
        else:
            items.append(Area((rectangle(x, y - 0.05, x + 0.3, y + 0.05),), sample.color, "sample"))
        items.append(Words(sample.name, (x + 0.35, y - SMALL * 0.36), SMALL, color=SOFT, name="sample"))
        x += 0.35 + width_of(sample.name, SMALL) + 0.12
    return tuple(items)
