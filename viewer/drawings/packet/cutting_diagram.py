"""The cutting diagram: every length taken, drawn to one scale, with the pieces that come out of it."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.takeoff.plan import Bought
from trimwright.model.takeoff.record import Takeoff, Trim
from trimwright.model.units import Tape

from ..ink.drawing import Area, Drawing, Item, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.lines_under_words import cleared
from ..ink.shapes import hatched, lines, rectangle
from ..ink.style import BODY, INK, LINE, SMALL, SOFT, WASH
from ..paper.flow import Block, flow, heading, paragraph, space
from ..paper.page import Box

BAR = 0.3
"""Height of a length, inches on the paper."""

ROW = 0.44
"""From one length to the next, inches on the paper."""

NAMES = 0.95
"""Room at the left for what a length is, inches on the paper."""

WIDE = 10.0
"""Width of the diagram that is a picture by itself, inches."""


def diagram_blocks(takeoff: Takeoff, show: Tape, width: float) -> Iterator[Block]:
    """Yield the diagram as blocks ``width`` inches wide."""
    longest = max((bought.length for bought in takeoff.lengths), default=1.0)
    for trim in takeoff.trim:
        plan = trim.plan
        kerf = f", {show.fine(plan.kerf)} lost at each cut" if plan.kerf else ""
        yield heading(str(trim.label), BODY * 1.15)
        words = (
            f"Runs {', '.join(trim.runs)}. Strip {show(trim.width)} wide. Offcuts and kerf {plan.waste:.1%} of the "
            f"metal taken{kerf}; {plan.proof}."
        )
        yield paragraph(words, width, SMALL, color=SOFT, keep=True)
        for number, bought in enumerate(plan.lengths, 1):
            yield _length(trim, number, bought, show, (width - NAMES) / longest, width)
        yield space(0.08)


def cutting_diagram(takeoff: Takeoff, title: str, show: Tape) -> Drawing:
    """Return the whole diagram as one drawing, as long as it takes."""
    margin = 0.35
    blocks = [
        paragraph(title, WIDE, BODY * 1.5, bold=True),
        paragraph(
            "Cutting diagram: tape hooks on at the left; cut from left to right.", WIDE, SMALL, color=SOFT
        ),
        *diagram_blocks(takeoff, show, WIDE),
    ]
    height = sum(block.height for block in blocks) + 2 * margin
    [items] = flow(blocks, Box(margin, margin, margin + WIDE, height - margin))
    paper = rectangle(0.0, 0.0, WIDE + 2 * margin, height)
    return Drawing(
        f"{title}: cutting diagram", (WIDE + 2 * margin, height), (Area((paper,), "#ffffff", "paper"), *items)
    )


def _length(trim: Trim, number: int, bought: Bought, show: Tape, ratio: float, width: float) -> Block:
    top, low = -0.06, -0.06 - BAR
    base = (top + low) / 2
    line = base + (0.025 if bought.from_hand else -SMALL * 0.36)
    items: list[Item] = [
        Words(f"{number}", (0.0, line), SMALL, bold=True, color=INK, name="number"),
        Words(show(bought.length), (0.25, line), SMALL, color=INK, name="stock"),
    ]
    if bought.from_hand:
        items.append(Words("on hand", (0.25, base - 0.105), SMALL, color=SOFT, name="stock"))
    right = NAMES + bought.length * ratio
    small: list[str] = []
    for cut in bought.cuts:
        a, b = NAMES + cut.start * ratio, NAMES + (cut.start + cut.length) * ratio
        ring = rectangle(a, low, b, top)
        items += [Area((ring,), "#ffffff", "piece"), Stroke(ring, 0.012, INK, closed=True, name="piece")]
        name = _named(cut.mark, show(cut.length), a, b, base)
        items += name
        if not name:
            small.append(f"{cut.mark} {show(cut.length)}")
    if bought.offcut > 0.01:
        a = right - bought.offcut * ratio
        ring = rectangle(a, low, right, top)
        items += [Area((ring,), WASH, "offcut"), *hatched(a, low, right, top)]
        items.append(Stroke(ring, 0.008, SOFT, closed=True, name="offcut"))
        items += _left(bought.offcut, trim.least_offcut, show, a, right, base)
    texts = wrapped(f"Narrow, from the left: {', '.join(small)}", SMALL, width - NAMES) if small else ()
    items += lines(texts, (NAMES, low - 0.03), SMALL)
    return Block(ROW + SMALL * LINE * len(texts), tuple(cleared(items, ("lap",))))


def _left(offcut: float, least: float, show: Tape, a: float, b: float, base: float) -> list[Item]:
    """Return what becomes of an offcut, where the words fit it."""
    fate, length = ("keep" if offcut >= least else "scrap"), show(offcut)
    for words, at in (((f"{fate} {length}",), (-SMALL * 0.36,)), ((fate, length), (0.025, -0.105))):
        wide = max(width_of(text, SMALL) for text in words) + 0.06
        if wide > b - a:
            continue
        return [
            Words(text, ((a + b) / 2, base + y), SMALL, "middle", color=INK, name="offcut")
            for text, y in zip(words, at, strict=True)
        ]
    return []


def _named(mark: str, length: str, a: float, b: float, base: float) -> list[Item]:
    """Return a piece's mark and length where they fit it: in one line, in two, or the mark alone, upright, or not."""
    middle, room = (a + b) / 2, b - a - 0.06
    both = f"{mark}  {length}"
    if width_of(both, SMALL, bold=True) <= room:
        return [
            Words(both, (middle, base - SMALL * 0.36), SMALL, "middle", bold=True, color=INK, name="piece")
        ]
    if max(width_of(mark, SMALL, bold=True), width_of(length, SMALL)) <= room:
        return [
            Words(mark, (middle, base + 0.025), SMALL, "middle", bold=True, color=INK, name="piece"),
            Words(length, (middle, base - 0.105), SMALL, "middle", color=INK, name="piece"),
        ]
    if room >= SMALL and width_of(mark, SMALL, bold=True) <= BAR - 0.03:
        foot = (middle + SMALL * 0.36, base)
        return [Words(mark, foot, SMALL, "middle", 90.0, bold=True, color=INK, name="piece")]
    return []
