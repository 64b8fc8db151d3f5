"""A strip: one piece of a run drawn large, with the ends of its neighbours and a tape mark at every screw."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trimwright.model.layout import Part

from ..ink.drawing import Area, Item, Point, Stroke, Words, moved
from ..ink.label_row import spread
from ..ink.letters import shortened, width_of
from ..ink.lines_under_words import cleared
from ..ink.shapes import circle, hatched, rectangle
from ..ink.style import BODY, FAINT, INK, LARGE, SMALL, SOFT, WASH
from ..paper.flow import Block
from ..paper.pins import Pin, along, draw_pin, pin_width
from .broadside import outlines, surfaces
from .run_facts import RunFacts, Seam, end_notes, merged
from .strip_scale import GUTTER, Bed, Scale
from .tape_marks import Mark, mark_row

ON_END = 1e-4
"""What is nearer than this to where the drawing stops lies on it, inches of metal."""


def strips(facts: RunFacts, number: int, scale: Scale) -> Iterator[Block]:
    """Yield the strips of piece ``number`` of a run, counted from 0, its low end first."""
    for stretch in range(scale.count):
        yield _strip(facts, number, scale, stretch)


def _strip(facts: RunFacts, number: int, scale: Scale, stretch: int) -> Block:
    part = facts.parts[number]
    bed = Bed(facts, part, scale, stretch, 0.0)
    room = (GUTTER - 0.08, scale.width)
    above, below = (
        mark_row(marks, room, up=up) for marks, up in zip(_marks(bed), (True, False), strict=True)
    )
    top = -0.3 - above.height
    bed = Bed(facts, part, scale, stretch, top - scale.broad)
    foot = bed.bottom - below.height - SMALL * 1.5
    items = [
        *_caption(bed),
        *moved(above.items, (0.0, top)),
        *_metals(bed, number),
        *_screws(bed),
        *_legs(bed),
        *_pins(bed),
        *moved(below.items, (0.0, bed.bottom)),
        *_notes(bed, foot),
    ]
    return Block(0.16 - foot, tuple(cleared(items, ("metal", "hidden end", "seam", "lap"))))


def _caption(bed: Bed) -> list[Item]:
    part, show, base = bed.part, bed.facts.layout.scene.tape, -LARGE * 1.05
    words = f"{show(part.length)} long, cut from {show(part.piece.stock)}"
    if bed.scale.count > 1:
        words += f"; here from {show(bed.own[0] - part.low)} to {show(bed.own[1] - part.low)}"
    x = width_of(part.mark, LARGE, bold=True) + 0.14
    items: list[Item] = [
        Words(part.mark, (0.0, base), LARGE, bold=True, color=INK, name="mark"),
        Words(words, (x, base), BODY, color=INK, name="length"),
    ]
    if part.piece.short and bed.first:
        x += width_of(words, BODY) + 0.16
        label = "SHORT PIECE"
        ring = rectangle(x, base - 0.04, x + width_of(label, SMALL, bold=True) + 0.14, base + 0.12)
        white = Words(label, (x + 0.07, base), SMALL, bold=True, color="#ffffff", name="short piece")
        items += [Area((ring,), INK, "short piece"), white]
    return items


def _marks(bed: Bed) -> tuple[list[Mark], list[Mark]]:
    """Return the marks above and below a piece: a cap's lower wing has its marks below."""
    part, show = bed.part, bed.facts.layout.scene.tape

    def mark(at: float, screw: bool) -> Mark:
        return Mark(bed.x(part.low + at), show(at), show(part.low + at), screw)

    screws = bed.screws
    above = merged([screw.at for screw in screws if not bed.below(screw.across)])
    below = merged([screw.at for screw in screws if bed.below(screw.across)])
    upper = [mark(at, True) for at in above]
    if bed.first:
        upper.insert(0, mark(0.0, False))
    if bed.last:
        upper.append(mark(part.length, False))
    return upper, [mark(at, True) for at in below]


def _metals(bed: Bed, number: int) -> list[Item]:
    """Return the piece with its neighbours' ends, each over or under the next as they lie, and the seams."""
    part, parts = bed.part, bed.facts.parts
    lies = {other: end.lies for end in part.ends.laps for other in end.others}
    under: list[Item] = []
    over: list[Item] = []
    hidden: list[float] = []
    for step in (-1, 1):
        if not 0 <= number + step < len(parts):
            continue
        other = parts[number + step]
        if lies.get(other.mark) == "over":
            under += _metal(bed, other)
            hidden.append(other.high if step < 0 else other.low)
        else:
            over += _metal(bed, other)
            hidden.append(part.low if step < 0 else part.high)
    items = [*under, *_metal(bed, part), *over]
    for end in part.ends:
        if end.lap is None or not (bed.first if end.at == "low" else bed.last):
            continue
        left, right = sorted((bed.x(end.outermost), bed.x(end.inward(end.lap))))
        items += hatched(left, bed.bottom, right, bed.top)
    seams = [seam for seam in bed.facts.seams if bed.own[0] - 1 <= seam.u <= bed.own[1] + 1]
    items += [_seam(bed, seam) for seam in seams]
    for u in (u for u in hidden if bed.span[0] < u < bed.span[1]):
        line = ((bed.x(u), bed.bottom), (bed.x(u), bed.top))
        items.append(Stroke(line, 0.012, INK, (0.05, 0.035), name="hidden end"))
    return items


def _metal(bed: Bed, part: Part) -> list[Item]:
    """Return what is seen of a piece in the strip of ``bed``; a neighbour is drawn faintly."""
    faint = part is not bed.part
    ink = FAINT if faint else INK
    items: list[Item] = []
    seen = surfaces(part, bed.facts.aspect, bed.span)
    for surface in seen:
        ring = tuple((bed.x(u), bed.y(height)) for u, height in surface.ring)
        items.append(Area((ring,), "#f4f4f4" if faint else "#ffffff" if surface.painted else WASH, "metal"))
        items += _edged(bed, surface.ring, 0.007, ink)
    for outline in outlines(seen):
        items += _edged(bed, outline, 0.01, ink)
    return items


def _edged(bed: Bed, ring: Sequence[Point], width: float, ink: str) -> list[Item]:
    """Return the border of a surface, left open where the drawing stops and the metal goes on."""

    def inside(a: Point, b: Point) -> bool:
        return not any(abs(a[0] - end) < ON_END and abs(b[0] - end) < ON_END for end in bed.span)

    corners = list(ring)
    sides = [inside(corners[k - 1], corners[k]) for k in range(len(corners))]
    points = [(bed.x(u), bed.y(height)) for u, height in corners]
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


def _seam(bed: Bed, seam: Seam) -> Stroke:
    """Return the line of a seam: over the whole piece, or over the wing on its own side of a cap."""
    x, low, high = bed.x(seam.u), bed.bottom - 0.04, bed.top + 0.04
    if len(bed.facts.run.edge.faces) == 2:
        middle = (bed.bottom + bed.top) / 2
        low, high = (middle, high) if seam.side == 0 else (low, middle)
    return Stroke(((x, low), (x, high)), 0.01, SOFT, (0.09, 0.03, 0.015, 0.03), name="seam")


def _screws(bed: Bed) -> list[Item]:
    """Return the screws, each with a fine line to the side where its mark stands, and where the tape hooks on."""
    items: list[Item] = []
    for screw in bed.screws:
        at = bed.x(bed.part.low + screw.at), bed.across(screw.across)
        side = at[0], bed.bottom if bed.below(screw.across) else bed.top
        items.append(Stroke((side, at), 0.005, SOFT, name="leader"))
        items.append(Area((circle(at, 0.032, 12),), INK, "screw"))
    if not bed.first:
        return items
    x, away = bed.x(bed.part.low), 0.1 if bed.facts.aspect.mirrored else -0.1
    tip: tuple[Point, ...] = ((x, bed.top), (x + away, bed.top + 0.05), (x + away, bed.top - 0.05))
    return [*items, Area((tip,), INK, "tape hooks on here")]


def _legs(bed: Bed) -> list[Item]:
    """Return the names of the legs that are seen, in the gutter, where they are high enough for a name."""
    items: list[Item] = []
    for leg in bed.part.run.section.legs:
        v = bed.part.run.section.v[leg.strip : leg.strip + 2]
        low, high = sorted((bed.across(float(v[0])), bed.across(float(v[1]) - 1e-6)))
        if high - low > SMALL * 1.05 and leg.name != "return" and "hem" not in leg.name:
            items.append(
                Words(leg.name, (0.0, (low + high) / 2 - SMALL * 0.36), SMALL, color=SOFT, name="leg")
            )
    return items


def _pins(bed: Bed) -> list[Item]:
    own = sorted(
        (bed.x(along(bed.facts.run, pin)), pin.number, pin) for pin in bed.facts.pins if _is_on(pin, bed)
    )
    widths = [pin_width(str(number)) + 0.04 for _, number, _ in own]
    places = spread([x for x, _, _ in own], widths, GUTTER, bed.scale.width)
    return _drawn_pins([pin for _, _, pin in own], places or [], bed.bottom + bed.scale.broad * 0.24)


def _drawn_pins(pins: Sequence[Pin], places: Sequence[float], y: float) -> list[Item]:
    items: list[Item] = []
    for pin, x in zip(pins, places, strict=False):
        items += draw_pin(str(pin.number), (x, y), pin.finding.severity)
    return items


def _is_on(pin: Pin, bed: Bed) -> bool:
    """Return whether a finding is about this piece, at a place on it: the first such piece shows it."""
    u = along(bed.facts.run, pin)
    if not bed.has(u):
        return False
    for part in bed.facts.parts:
        if part.mark in pin.finding.pieces and part.low - 1 <= u <= part.high + 1:
            return part is bed.part
    return False


def _notes(bed: Bed, y: float) -> list[Item]:
    low, high = end_notes(bed.part, bed.facts.layout.scene.tape)
    low, high = low if bed.first else "", high if bed.last else ""
    left, right = (high, low) if bed.facts.aspect.mirrored else (low, high)
    room = bed.scale.width / 2 - 0.1
    return [
        Words(shortened(left, SMALL, room), (0.0, y), SMALL, color=INK, name="end"),
        Words(shortened(right, SMALL, room), (bed.scale.width, y), SMALL, "end", color=INK, name="end"),
    ]
