"""A strip: one piece of a run drawn large, with the ends of its neighbors and a tape mark at every screw."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trimwright.model.layout import Part
from trimwright.model.message import Length, Place

from ..ink.drawing import Anchor, Area, Item, Point, Stroke, Words, moved
from ..ink.label_row import spread
from ..ink.letters import width_of, wrapped
from ..ink.lines_under_words import cleared
from ..ink.shapes import circle, hatched, rectangle
from ..ink.style import BODY, FAINT, INK, LARGE, LINE, SMALL, SOFT, WASH
from ..paper.flow import Block
from ..paper.pins import FindingPin, along, draw_pin, pin_width
from .broadside import outlines, surfaces
from .run_facts import RunFacts, SeamAtEdge, end_notes, merged
from .strip_scale import BESIDE, Strip, StripScale, is_named, leg_name
from .tape_marks import TapeMark, mark_row, row_names

ON_END = 1e-4
"""What is nearer than this to where the drawing stops lies on it, inches of metal."""


def strips(facts: RunFacts, numbers: Sequence[int], scale: StripScale) -> Iterator[Block]:
    """Yield the strips of pieces of a run that are alike, by number from 0; the first is drawn, its low end first."""
    for stretch in range(scale.count):
        yield _strip(facts, numbers, scale, stretch)


def marks_alone(facts: RunFacts, numbers: Sequence[int], scale: StripScale) -> Iterator[Block]:
    """Yield the tape marks of pieces that are cut like those drawn above them, as ``strips`` does the drawings."""
    shared, names = _served(facts, numbers), row_names(facts.say)
    for stretch in range(scale.count):
        strip = Strip(facts, facts.parts[numbers[0]], scale, stretch, 0.0)
        caption, used = _caption(strip, shared)
        items, y = [*caption], -0.24
        rows = [marks for marks in _marks(strip, len(numbers) > 1) if marks]
        for up, marks in zip((True, False), rows, strict=False):
            own = replace(names, own=_wing(strip, up)) if len(rows) > 1 else names
            row = mark_row(marks, own, (scale.gutter - BESIDE, scale.width), up=True, bare=True)
            y -= row.height
            items += moved(row.items, (0.0, y))
        notes = _notes(strip, shared, used, y - SMALL * 1.2)
        yield Block(0.08 - y + notes.height, (*items, *notes.items))


def _wing(strip: Strip, up: bool) -> str:
    """Return the name of the upper or the lower wing of a cap."""
    wings = [leg for leg in strip.part.run.section.legs if is_named(leg)]
    v = strip.part.run.section.v
    wing = next(leg for leg in wings if strip.below(float(v[leg.strip : leg.strip + 2].mean())) != up)
    return strip.facts.say(leg_name(wing))


def _served(facts: RunFacts, numbers: Sequence[int]) -> list[Part]:
    """Return the pieces that one pattern of screws serves, those of twin runs among them."""
    return [own.parts[k] for own in (facts, *facts.twins) for k in numbers]


def _strip(facts: RunFacts, numbers: Sequence[int], scale: StripScale, stretch: int) -> Block:
    number, part = numbers[0], facts.parts[numbers[0]]
    shared = _served(facts, numbers)
    strip = Strip(facts, part, scale, stretch, 0.0)
    room, names = (scale.gutter - BESIDE, scale.width), row_names(facts.say)
    above, below = (
        mark_row(marks, names, room, up=up)
        for marks, up in zip(_marks(strip, len(numbers) > 1), (True, False), strict=True)
    )
    top = -0.24 - above.height
    strip = Strip(facts, part, scale, stretch, top - scale.broad)
    foot = strip.bottom - below.height
    caption, used = _caption(strip, shared)
    notes = _notes(strip, shared, used, foot - SMALL * 1.5)
    items = [
        *caption,
        *moved(above.items, (0.0, top)),
        *_metals(strip, number, len(numbers) > 1),
        *_screws(strip),
        *_legs(strip),
        *_pins(strip),
        *moved(below.items, (0.0, strip.bottom)),
        *notes.items,
    ]
    return Block(0.08 - foot + notes.height, tuple(cleared(items, ("metal", "hidden end", "seam", "lap"))))


def _caption(strip: Strip, shared: Sequence[Part]) -> tuple[list[Item], float]:
    """Return the marks of the pieces that a strip stands for, how long they are, and how far that runs, inches."""
    part, say, base = strip.part, strip.facts.say, -LARGE * 1.05
    marks = ", ".join(each.mark for each in shared)
    length, stock = Length(part.length), Length(part.piece.stock)
    if strip.scale.count == 1:
        words = say("{length} long, cut from {stock}", length=length, stock=stock)
    else:
        first, last = (Place(u - part.low) for u in strip.own)
        words = say(
            "{length} long, cut from {stock}; here from {first} to {last}",
            length=length,
            stock=stock,
            first=first,
            last=last,
        )
    long = width_of(marks, LARGE, bold=True)
    size = LARGE * min(1.0, max(SMALL / LARGE, (strip.scale.width - width_of(words, BODY) - 0.3) / long))
    x = width_of(marks, size, bold=True) + 0.14
    items: list[Item] = [
        Words(marks, (0.0, base), size, bold=True, color=INK, name="mark"),
        Words(words, (x, base), BODY, color=INK, name="length"),
    ]
    x += width_of(words, BODY)
    if part.piece.short and strip.first:
        x += 0.16
        label = say("SHORT PIECE")
        ring = rectangle(x, base - 0.04, x + width_of(label, SMALL, bold=True) + 0.14, base + 0.12)
        white = Words(label, (x + 0.07, base), SMALL, bold=True, color="#ffffff", name="short piece")
        items += [Area((ring,), INK, "short piece"), white]
        x += width_of(label, SMALL, bold=True) + 0.14
    return items, x


def _marks(strip: Strip, shared: bool) -> tuple[list[TapeMark], list[TapeMark]]:
    """Return the marks above and below a piece: a cap's lower wing has its marks below.

    Where the drawing serves several pieces of a run, no mark says where it lies along the edge.
    """
    part, show = strip.part, strip.facts.layout.scene.tape

    def mark(at: float, screw: bool) -> TapeMark:
        return TapeMark(strip.x(part.low + at), show(at), "" if shared else show(part.low + at), screw)

    screws = strip.screws
    above = merged([screw.at for screw in screws if not strip.below(screw.across)])
    below = merged([screw.at for screw in screws if strip.below(screw.across)])
    upper = [mark(at, True) for at in above]
    if strip.first:
        upper.insert(0, mark(0.0, False))
    if strip.last:
        upper.append(mark(part.length, False))
    lower = [mark(at, True) for at in below]
    if [one.own for one in lower] == [show(at) for at in above]:
        lower = []  # both wings have their screws at the same marks
    return upper, lower


def _metals(strip: Strip, number: int, shared: bool) -> list[Item]:
    """Return the piece with its neighbors' ends, each over or under the next as they lie, and its own seams."""
    part, parts = strip.part, strip.facts.parts
    lies = {other: end.lies for end in part.ends.laps for other in end.others}
    under: list[Item] = []
    over: list[Item] = []
    hidden: list[float] = []
    for step in (-1, 1):
        if not 0 <= number + step < len(parts):
            continue
        other = parts[number + step]
        if lies.get(other.mark) == "over":
            under += _metal(strip, other)
            hidden.append(other.high if step < 0 else other.low)
        else:
            over += _metal(strip, other)
            hidden.append(part.low if step < 0 else part.high)
    items = [*under, *_metal(strip, part), *over]
    for end in part.ends:
        if end.lap is None or not (strip.first if end.at == "low" else strip.last):
            continue
        left, right = sorted((strip.x(end.outermost), strip.x(end.inward(end.lap))))
        items += hatched(left, strip.bottom, right, strip.top)
    seams = [seam for seam in strip.facts.seams if strip.own[0] - 1 <= seam.u <= strip.own[1] + 1]
    items += [_seam(strip, seam) for seam in seams if not shared]
    for u in (u for u in hidden if strip.span[0] < u < strip.span[1]):
        line = ((strip.x(u), strip.bottom), (strip.x(u), strip.top))
        items.append(Stroke(line, 0.012, INK, (0.05, 0.035), name="hidden end"))
    return items


def _metal(strip: Strip, part: Part) -> list[Item]:
    """Return what is seen of a piece in the strip of ``strip``; a neighbor is drawn faintly."""
    faint = part is not strip.part
    ink = FAINT if faint else INK
    items: list[Item] = []
    seen = surfaces(part, strip.facts.aspect, strip.span)
    for surface in seen:
        ring = tuple((strip.x(u), strip.y(height)) for u, height in surface.ring)
        items.append(Area((ring,), "#f4f4f4" if faint else "#ffffff" if surface.painted else WASH, "metal"))
        items += _edged(strip, surface.ring, 0.007, ink)
    for outline in outlines(seen):
        items += _edged(strip, outline, 0.01, ink)
    return items


def _edged(strip: Strip, ring: Sequence[Point], width: float, ink: str) -> list[Item]:
    """Return the border of a surface, left open where the drawing stops and the metal goes on."""

    def inside(a: Point, b: Point) -> bool:
        return not any(abs(a[0] - end) < ON_END and abs(b[0] - end) < ON_END for end in strip.span)

    corners = list(ring)
    sides = [inside(corners[k - 1], corners[k]) for k in range(len(corners))]
    points = [(strip.x(u), strip.y(height)) for u, height in corners]
    if all(sides):
        return [Stroke(tuple(points), width, ink, closed=True, name="metal")]
    first = sides.index(False)
    items: list[Item] = []
    line = [points[first]]
    for k in range(first + 1, first + len(points) + 1):
        k %= len(points)
        if sides[k]:
            line.append(points[k])
            continue
        if len(line) > 1:
            items.append(Stroke(tuple(line), width, ink, name="metal"))
        line = [points[k]]
    return items


def _seam(strip: Strip, seam: SeamAtEdge) -> Stroke:
    """Return the line of a seam: over the whole piece, or over the wing on its own side of a cap."""
    x, low, high = strip.x(seam.u), strip.bottom - 0.04, strip.top + 0.04
    if len(strip.facts.run.edge.faces) == 2:
        middle = (strip.bottom + strip.top) / 2
        low, high = (middle, high) if seam.side == 0 else (low, middle)
    return Stroke(((x, low), (x, high)), 0.01, SOFT, (0.09, 0.03, 0.015, 0.03), name="seam")


def _screws(strip: Strip) -> list[Item]:
    """Return the screws, each with a fine line to the side where its mark stands, and where the tape hooks on."""
    items: list[Item] = []
    for screw in strip.screws:
        at = strip.x(strip.part.low + screw.at), strip.across(screw.across)
        side = at[0], strip.bottom if strip.below(screw.across) else strip.top
        items.append(Stroke((side, at), 0.005, SOFT, name="leader"))
        items.append(Area((circle(at, 0.032, 12),), INK, "screw"))
    if not strip.first:
        return items
    x, away = strip.x(strip.part.low), 0.1 if strip.facts.aspect.mirrored else -0.1
    tip: tuple[Point, ...] = ((x, strip.top), (x + away, strip.top + 0.05), (x + away, strip.top - 0.05))
    return [*items, Area((tip,), INK, "tape hooks on here")]


def _legs(strip: Strip) -> list[Item]:
    """Return the names of the legs that are seen, in the gutter, where they are high enough for a name."""
    items: list[Item] = []
    for leg in strip.part.run.section.legs:
        v = strip.part.run.section.v[leg.strip : leg.strip + 2]
        low, high = sorted((strip.across(float(v[0])), strip.across(float(v[1]) - 1e-6)))
        if high - low > SMALL * 1.05 and is_named(leg):
            items.append(
                Words(
                    strip.facts.say(leg_name(leg)),
                    (0.0, (low + high) / 2 - SMALL * 0.36),
                    SMALL,
                    color=SOFT,
                    name="leg",
                )
            )
    return items


def _pins(strip: Strip) -> list[Item]:
    own = sorted(
        (strip.x(along(strip.facts.run, pin)), pin.number, pin)
        for pin in strip.facts.pins
        if _is_on(pin, strip)
    )
    widths = [pin_width(str(number)) + 0.04 for _, number, _ in own]
    places = spread([x for x, _, _ in own], widths, strip.scale.gutter, strip.scale.width)
    return _drawn_pins([pin for _, _, pin in own], places or [], strip.bottom + strip.scale.broad * 0.24)


def _drawn_pins(pins: Sequence[FindingPin], places: Sequence[float], y: float) -> list[Item]:
    items: list[Item] = []
    for pin, x in zip(pins, places, strict=False):
        items += draw_pin(str(pin.number), (x, y), pin.finding.severity)
    return items


def _is_on(pin: FindingPin, strip: Strip) -> bool:
    """Return whether a finding is about this piece, at a place on it: the first such piece shows it."""
    u = along(strip.facts.run, pin)
    if not strip.has(u):
        return False
    for part in strip.facts.parts:
        if part.mark in pin.finding.pieces and part.low - 1 <= u <= part.high + 1:
            return part is strip.part
    return False


def _notes(strip: Strip, shared: Sequence[Part], used: float, y: float) -> Block:
    """Return what happens at the ends of the pieces: behind their caption, which runs to ``used``, or at ``y``."""
    low, high = end_notes(shared, strip.facts.say)
    low, high = low if strip.first else "", high if strip.last else ""
    left, right = (high, low) if strip.facts.aspect.mirrored else (low, high)
    beside = "  ·  ".join(filter(None, (left, right)))
    if used + 0.25 + width_of(beside, SMALL) <= strip.scale.width:
        at = (strip.scale.width, -LARGE * 1.05)
        return Block(0.0, tuple(_note(beside, at, "end", strip.scale.width)))
    both = width_of(left, SMALL) + width_of(right, SMALL) + 0.2 <= strip.scale.width
    texts = wrapped(right, SMALL, strip.scale.width)
    below = y if both else y - SMALL * LINE * len(wrapped(left, SMALL, strip.scale.width))
    items = [
        *_note(left, (0.0, y), "start", strip.scale.width),
        *_note(right, (strip.scale.width, below), "end", strip.scale.width),
    ]
    return Block(y - below + SMALL * LINE * len(texts) + SMALL * 0.5, tuple(items))


def _note(text: str, at: Point, anchor: Anchor, width: float) -> list[Item]:
    return [
        Words(line, (at[0], at[1] - SMALL * LINE * k), SMALL, anchor, color=INK, name="end")
        for k, line in enumerate(wrapped(text, SMALL, width))
    ]
