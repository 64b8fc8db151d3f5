"""The cutting diagram: every length taken, drawn to one scale, with the pieces that come out of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trimwright.model.message import Fine, Length, Listed, message
from trimwright.model.takeoff.plan import Bought
from trimwright.model.takeoff.record import Takeoff, Trim

from ...words.speaker import Speaker
from ..ink.drawing import Area, Drawing, Item, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.lines_under_words import cleared
from ..ink.shapes import hatched, lines, rectangle
from ..ink.style import BODY, INK, LINE, SMALL, SOFT, WASH
from ..paper.flow import Block, flow, heading, paragraph, space
from ..paper.page import Room

BAR = 0.3
"""Height of a length, inches on the paper."""

ROW = 0.44
"""From one length to the next, inches on the paper."""

NAMES = 0.95
"""Room at the left for what a length is at least, inches on the paper."""

WIDE = 10.0
"""Width of the diagram that is a picture by itself, inches."""


def diagram_blocks(takeoff: Takeoff, say: Speaker, width: float, listed: bool = False) -> Iterator[Block]:
    """Yield the diagram as blocks ``width`` inches wide; lengths that nothing is cut off may be ``listed`` instead."""
    longest = max((bought.length for bought in takeoff.lengths), default=1.0)
    for trim in takeoff.cut:
        yield heading(say(trim.label), BODY * 1.15)
        yield paragraph(_about(trim, say), width, SMALL, color=SOFT, keep=True)
        whole = [(number, bought) for number, bought in enumerate(trim.plan.lengths, 1) if _whole(bought)]
        for number, bought in enumerate(trim.plan.lengths, 1):
            if not (listed and _whole(bought)):
                yield _length(trim, number, bought, say, longest, width)
        if listed and whole:
            yield paragraph(_used_whole(whole, say), width, SMALL)
        yield space(0.08)


def _whole(bought: Bought) -> bool:
    """Return whether one piece takes a whole length: nothing is cut off."""
    return len(bought.cuts) == 1 and bought.offcut <= 0.01 and not bought.from_hand


def _used_whole(lengths: Sequence[tuple[int, Bought]], say: Speaker) -> str:
    """Return which lengths are used as they come, and for which pieces."""
    each = (
        message(
            "{number}: {mark} {length}", number=number, mark=bought.cuts[0].mark, length=Length(bought.length)
        )
        for number, bought in lengths
    )
    return say("Whole lengths, nothing cut off: {pieces}.", pieces=Listed(tuple(each), "comma"))


def _about(trim: Trim, say: Speaker) -> str:
    """Return what the lengths of one trim are for, and how good their plan is known to be."""
    runs, width, proof = Listed(trim.runs, "comma"), Length(trim.width), trim.plan.proof
    waste = f"{trim.plan.waste:.1%}"
    if not trim.plan.kerf:
        return say(
            "Runs {runs}. Strip {width} wide. Offcuts and kerf {waste} of the metal taken; {proof}.",
            runs=runs,
            width=width,
            waste=waste,
            proof=proof,
        )
    return say(
        "Runs {runs}. Strip {width} wide. Offcuts and kerf {waste} of the metal taken, {kerf} lost at each cut; "
        "{proof}.",
        runs=runs,
        width=width,
        waste=waste,
        kerf=Fine(trim.plan.kerf),
        proof=proof,
    )


def cutting_diagram(takeoff: Takeoff, title: str, say: Speaker) -> Drawing:
    """Return the whole diagram as one drawing, as long as it takes."""
    margin = 0.35
    about = say("Cutting diagram: tape hooks on at the left; cut from left to right.")
    blocks = [
        paragraph(title, WIDE, BODY * 1.5, bold=True),
        paragraph(about, WIDE, SMALL, color=SOFT),
        *diagram_blocks(takeoff, say, WIDE),
    ]
    height = sum(block.height for block in blocks) + 2 * margin
    [items] = flow(blocks, Room(margin, margin, margin + WIDE, height - margin))
    size = (WIDE + 2 * margin, height)
    paper = Area((rectangle(0.0, 0.0, *size),), "#ffffff", "paper")
    return Drawing(say("{title}: cutting diagram", title=title), size, (paper, *items))


def _length(trim: Trim, number: int, bought: Bought, say: Speaker, longest: float, width: float) -> Block:
    """Return one length as a bar, what it is at its left and the narrow pieces told below."""
    show, hand = say.tape, say("on hand")
    names = max(NAMES, *(0.3 + width_of(text, SMALL) for text in (hand, show(longest))))
    ratio = (width - names) / longest
    top, low = -0.06, -0.06 - BAR
    base = (top + low) / 2
    line = base + (0.025 if bought.from_hand else -SMALL * 0.36)
    items: list[Item] = [
        Words(f"{number}", (0.0, line), SMALL, bold=True, color=INK, name="number"),
        Words(show(bought.length), (0.25, line), SMALL, color=INK, name="stock"),
    ]
    if bought.from_hand:
        items.append(Words(hand, (0.25, base - 0.105), SMALL, color=SOFT, name="stock"))
    small: list[str] = []
    for cut in bought.cuts:
        a, b = names + cut.start * ratio, names + (cut.start + cut.length) * ratio
        ring = rectangle(a, low, b, top)
        items += [Area((ring,), "#ffffff", "piece"), Stroke(ring, 0.012, INK, closed=True, name="piece")]
        name = _named(cut.mark, show(cut.length), a, b, base)
        items += name
        if not name:
            small.append(f"{cut.mark} {show(cut.length)}")
    if bought.offcut > 0.01:
        right = names + bought.length * ratio
        items += _offcut(bought.offcut, trim.least_offcut, say, right - bought.offcut * ratio, right)
    narrow = say("Narrow, from the left: {pieces}", pieces=Listed(tuple(small), "comma")) if small else ""
    texts = wrapped(narrow, SMALL, width - names) if narrow else ()
    items += lines(texts, (names, low - 0.03), SMALL)
    return Block(ROW + SMALL * LINE * len(texts), tuple(cleared(items, ("lap",))))


def _offcut(offcut: float, least: float, say: Speaker, left: float, right: float) -> list[Item]:
    """Return what is left of a length, hatched, and what becomes of it."""
    top, low = -0.06, -0.06 - BAR
    ring = rectangle(left, low, right, top)
    return [
        Area((ring,), WASH, "offcut"),
        *hatched(left, low, right, top),
        Stroke(ring, 0.008, SOFT, closed=True, name="offcut"),
        *_left(offcut, least, say, left, right, (top + low) / 2),
    ]


def _left(offcut: float, least: float, say: Speaker, a: float, b: float, base: float) -> list[Item]:
    """Return what becomes of an offcut, in one line or two, where the words fit it."""
    length = Length(offcut)
    if offcut >= least:
        fate, both = say("keep"), say("keep {length}", length=length)
    else:
        fate, both = say("scrap"), say("scrap {length}", length=length)
    for words, at in (((both,), (-SMALL * 0.36,)), ((fate, say.tape(offcut)), (0.025, -0.105))):
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
