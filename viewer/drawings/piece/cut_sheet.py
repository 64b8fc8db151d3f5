"""The cut sheet: what it takes to mark, cut and fold one piece by hand, on one page or more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import ENGLISH
from trimwright.model.metals import METALS
from trimwright.model.units import Tape

from ...data.traces import is_mirrored
from ...display.ends import meets
from ...words.speaker import speaker_of
from ..ink.drawing import Area, Drawing, Item, Stroke, Words, moved
from ..ink.letters import unbroken_tape, width_of, wrapped
from ..ink.shapes import lines, rectangle
from ..ink.style import BODY, LINE, SMALL, SOFT
from ..paper.flow import Block, flow
from ..paper.page import Imprint, Paper, body_of, framed
from . import pattern
from .batches import Batch, batches, unmarked
from .both_ends import held
from .progress import Stage
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
    box = body_of(paper)
    blocks = [_overview(batch, layout, box.width), *whole(batch, layout, box.width), _legend(box.width)]
    room = box.height - sum(block.height for block in blocks)
    blocks += [
        *_end(batch, layout, batch.first.ends.low, box.width, room),
        *_end(batch, layout, batch.first.ends.high, box.width),
    ]
    pages = flow(blocks, box)
    part = batch.first
    result = []
    hand = f"{part.run.hand} hand" if part.run.hand else ""
    for number, items in enumerate(pages, start=1):
        count = f"sheet {number} of {len(pages)}" if len(pages) > 1 else ""
        aside = "  ·  ".join(words for words in (hand, count) if words)
        name = batch.title if number == 1 else f"{batch.title}, continued"
        result.append(framed(name, items, paper, imprint, aside))
    return result


def _overview(batch: Batch, layout: Layout, width: float) -> Block:
    """Return the formed piece beside what is known of it."""
    wide = width * 0.5
    x, names = wide + 0.2, 0.8
    items: list[Item] = []
    y = 0.0
    for name, text in _facts(batch, layout):
        texts = wrapped(text, SMALL, width - x - names)
        items += lines((name,), (x, y), SMALL, bold=True, color=SOFT)
        items += lines(texts, (x + names, y), SMALL)
        y -= SMALL * LINE * len(texts) + 0.045
    height = max(2.0, -y)
    return Block(height + 0.05, (*held(batch.first, wide, height), *items))


def _facts(batch: Batch, layout: Layout) -> list[tuple[str, str]]:
    """Return what the installer asks first, by name."""
    part, scene = batch.first, layout.scene
    show = scene.tape
    metal = METALS[scene.metal.kind]
    label = metal.label(scene.metal.thickness)
    runs = dict.fromkeys(part.run.name for part in batch.parts)
    facts = [
        ("Cut", f"{len(batch.parts)}: {', '.join(batch.marks)}"),
        ("Goes on", ", ".join(runs)),
        ("Hand", _hand(part)),
        ("Profile", part.run.section.profile),
        ("Metal", f"{metal.title}, {show.fine(scene.metal.thickness)}{f' ({label})' if label else ''}"),
        ("Blank", f"{show(part.length)} long, {show(part.run.section.width)} wide when flat"),
        ("Marks", "from the low end of the blank; set them all out before that end is cut"),
        ("Low end", _meets(batch, [part.ends.low for part in batch.parts], show)),
        ("High end", _meets(batch, [part.ends.high for part in batch.parts], show)),
    ]
    if any(end.kind.aloft for end in part.ends):
        facts.append(("Caution", "It is fitted at the top of the roof: tie off before you carry it up."))
    return facts


def _hand(part: Part) -> str:
    side = "right" if is_mirrored(part) else "left"
    if part.run.hand:
        return f"{part.run.hand} hand; seen from outside its low end is at the {side}"
    if len(part.run.edge.faces) == 2:
        return f"none; seen from its right wing its low end is at the {side}"
    return f"none; seen from outside its low end is at the {side}"


def _meets(batch: Batch, ends: Sequence[End], show: Tape) -> str:
    """Return what the pieces of a batch meet at one end, each wording once with the marks it holds for."""
    found: dict[str, list[str]] = {}
    for mark, end in zip(batch.marks, ends, strict=True):
        found.setdefault(_told(end, show), []).append(mark)
    if len(found) == 1:
        return next(iter(found))
    return "; ".join(f"{', '.join(marks)}: {text}" for text, marks in found.items())


def _told(end: End, show: Tape) -> str:
    """Return what an end meets, and whether it is bedded in sealant."""
    if end.sealed:
        return f"{meets(end).said(ENGLISH, show)}, in sealant"
    return (
        meets(end).said(ENGLISH, show) if end.lap is None else f"{meets(end).said(ENGLISH, show)}, no sealant"
    )


def _end(batch: Batch, layout: Layout, end: End, width: float, room: float = 0.0) -> list[Block]:
    """Return one end enlarged, its first steps beside it and the others below.

    Args:
        batch: The pieces.
        layout: What they belong to.
        end: The end of the first of them.
        width: To fill, inches.
        room: What is left of the page, inches; the end is drawn smaller when it then still fits there.
    """
    part, show = batch.first, layout.scene.tape
    cell = (width - (BESIDE - 1) * GUTTER) / BESIDE
    marks = {*end.others} if len(batch.parts) > 1 else set()
    speaker = speaker_of(layout.scene)
    speaker = replace(speaker, tape=unbroken_tape(speaker.tape))

    def say(stage: Stage) -> str:
        return speaker(unmarked(stage.step, marks))

    cells = step_cells(part, end, cell, say)
    if end.at == "high" and end.cut.is_square:
        says = f"High end, square across, {show(part.length)} from the low end"
        blocks = [Block(0.24, (Words(says, (0.0, -0.13), BODY, bold=True, name="caption"),), keep=True)]
    else:
        own = layout.screws_of(part.mark)
        wide = width - 2 * (cell + GUTTER) - 0.1
        most = SHORT if len(cells) <= 4 else TALL
        tries = [min(most, room - 0.05), most] if room > LEAST else [most]
        for height in tries:
            block, rest = _with_steps(
                pattern.end_block(part, end, wide, height, show, own), cells, wide, cell
            )
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


def _legend(width: float) -> Block:
    """Return how the drawings are read, as a row of samples; none of it hangs on color alone."""
    x, y = 0.0, -0.1
    items: list[Item] = []
    for name, stroke in pattern.SAMPLES + SAMPLES:
        weight, color, dash = stroke
        if name == "comes off":
            items.append(Area((rectangle(x, y - 0.05, x + 0.3, y + 0.05),), color, "sample"))
        else:
            items.append(Stroke(((x, y), (x + 0.3, y)), weight, color, dash, name="sample"))
        items.append(Words(name, (x + 0.35, y - SMALL * 0.36), SMALL, color=SOFT, name="sample"))
        x += 0.35 + width_of(name, SMALL) + 0.12
    slack = (width - x + 0.12) / 2
    return Block(0.26, moved(items, (max(slack, 0.0), 0.0)))
