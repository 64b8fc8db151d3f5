"""The bend list: what the shop forms, profile by profile: the section, its bends in order, the strip, how many of each.

Order of the bends: hems first, while the metal lies flat in the brake; then from the edges in, so that the widest part
is what hands hold. Common practice, no source: a shop with a folder or a press brake may go another way.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from trimwright.model.layout import Layout
from trimwright.model.message import Angle, Fine, Length, Listed, Message, counted, message
from trimwright.model.metals import METALS
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.profiles.leg_words import leg_words
from trimwright.model.profiles.section import Section
from trimwright.model.takeoff.record import Takeoff, Trim

from ...buy.lists import text_of
from ...words.speaker import Speaker
from ..ink.drawing import Item, Stroke, moved
from ..ink.letters import shortened, width_of, wrapped
from ..ink.shapes import lines, numbered
from ..ink.style import INK, LINE, SMALL, SOFT
from ..paper.badge import badged
from ..paper.flow import Block, TableColumn, paragraph, table
from ..piece.placement import Dimension, column, room_for
from ..piece.tape_hooks import FOLDED, outer_edges

DRAWN, TALL, LEAST = 1.75, 1.5, 0.7
"""Width and height of a drawn section at most, and its width at least where names take more, inches on the paper."""

NAMES = 1.25
"""Room for the name and width of a leg beside a section that is drawn as wide as may be, inches."""

NUMBER = 0.075
"""Radius of the number of a bend, inches on the paper."""

PAINT = 0.045
"""How far the line that stands for the paint is drawn off the metal, inches on the paper."""


@dataclass(frozen=True, slots=True)
class BendStep:
    """One bend, as the brake makes it.

    Attributes:
        number: Its place among the bends, from 0 at the inboard edge.
        angle: Radians; positive away from the painted side.
        stop: From the gauge to the bend, inches.
        inboard: The gauge is on the inboard side.
        against: What lies at the gauge: the fold that is made already; None for the edge of the strip.
    """

    number: int
    angle: float
    stop: float
    inboard: bool
    against: int | None


def bend_order(section: Section) -> list[BendStep]:
    """Return the bends of a section in the order in which a brake makes them, each with its gauge."""
    v, width = section.v, section.width
    middles = [float(v[bend.first] + v[bend.last]) / 2 for bend in section.bends]
    last = len(section.bends) - 1

    def rank(number: int) -> tuple[bool, float]:
        hem = number in (0, last) and abs(section.bends[number].angle) >= FOLDED
        return not hem, min(middles[number], width - middles[number])

    made: list[int] = []
    steps: list[BendStep] = []
    edges = outer_edges(section)
    for number in sorted(range(last + 1), key=rank):
        bend = section.bends[number]
        if bend.first == bend.last:
            continue
        inner = max((k for k in made if k < number), default=None)
        outer = min((k for k in made if k > number), default=None)
        stops = [
            (abs(middles[number] - (0.0 if inner is None else edges[inner][1])), True, inner),
            (abs((width if outer is None else edges[outer][0]) - middles[number]), False, outer),
        ]
        stop, inboard, against = min(stops, key=lambda each: each[0])
        steps.append(BendStep(number, bend.angle, stop, inboard, against))
        made.append(number)
    return steps


def bend_list(layout: Layout, takeoff: Takeoff, width: float, say: Speaker) -> Iterator[Block]:
    """Yield what the shop forms, a block for each way in which a profile is bent."""
    metal, shop = layout.scene.metal, layout.scene.shop
    told = [
        say(
            "{metal}, {thickness}. Inside radius of bends {radius}; hems are left open by {gap} inside. The thin line "
            "in the figures is the painted side. Angles are those bent through, up or down with the painted side up. "
            "Order: hems first, then from the edges in. A stop is from the strip's edge to the middle of the bend, or "
            "from the fold that lies at the gauge by then.",
            metal=METALS[metal.kind].title,
            thickness=Fine(metal.thickness),
            radius=Fine(metal.radius),
            gap=Fine(2 * metal.radius),
        )
    ]
    if shop.brake is not None:
        told.append(say("The brake is {length} long.", length=Length(shop.brake)))
    yield paragraph(" ".join(told), width, SMALL, keep=True)
    for trim in takeoff.cut:
        mark = trim.plan.lengths[0].pieces[0]
        cleat = layout.cleat(mark)
        section = layout.part(mark).run.section if cleat is None else cleat.sheet.section
        yield from _formed(layout, trim, section, width, say)


def _formed(layout: Layout, trim: Trim, section: Section, width: float, say: Speaker) -> Iterator[Block]:
    """Yield one way in which a profile is bent: its head, its figure, its bends."""
    steps = bend_order(section)
    drawn = _section(section, _widths(layout, section), steps, say)
    x = 3.55
    facts = _facts(layout, trim, section, width - x, say)
    rows = table(
        _columns(say), [_row(k, step, section, say) for k, step in enumerate(steps, 1)], width - x, SMALL
    )
    items, y = [*drawn.items, *moved(facts.items, (x, 0.0))], -facts.height
    for row in rows:
        items += moved(row.items, (x, y))
        y -= row.height
    aside = text_of(trim.weight, "weight", say)
    yield badged(", ".join(trim.runs), say(trim.label), aside, width)
    yield Block(max(drawn.height, -y) + 0.1, tuple(items))


def _columns(say: Speaker) -> tuple[TableColumn, ...]:
    return (
        TableColumn("", 0.2, bold=True),
        TableColumn(say("Bend"), 1.25),
        TableColumn(say("Through"), 0.8),
        TableColumn(say("Stop"), 0.55, right=True),
        TableColumn(say("From"), 1.6),
    )


def _row(number: int, step: BendStep, section: Section, say: Speaker) -> tuple[str, ...]:
    one, other = (leg_words(section.legs[step.number + k].name) for k in (0, 1))
    angle = Angle(abs(step.angle))
    way = message("{angle}° down", angle=angle) if step.angle > 0 else message("{angle}° up", angle=angle)
    return (
        str(number),
        say("{one} to {other}", one=one, other=other),
        say(way),
        say.tape(step.stop),
        say(_gauge(step, section)),
    )


def _gauge(step: BendStep, section: Section) -> Message:
    """Return what lies at the gauge."""
    if step.against is None:
        return message("inboard edge") if step.inboard else message("outboard edge")
    one, other = (leg_words(section.legs[step.against + k].name) for k in (0, 1))
    return message("{one} and {other}", one=one, other=other)


def _facts(layout: Layout, trim: Trim, section: Section, width: float, say: Speaker) -> Block:
    """Return the strip, how many lengths of it, and what this brake cannot do."""
    counts = tuple(
        message("{count} of {length}", count=count, length=Length(length)) for length, count in trim.counts
    )
    told = [
        say(
            counted(
                "Strip {width} wide, {count} bend. Form {lengths}.",
                "Strip {width} wide, {count} bends. Form {lengths}.",
                count=len([bend for bend in section.bends if bend.last > bend.first]),
                width=Length(trim.width),
                lengths=Listed(counts) if counts else message("none: all is on hand"),
            )
        )
    ]
    told += [say(line) for line in _beyond(layout, trim, section)]
    texts = [line for each in told for line in wrapped(each, SMALL, width)]
    return Block(SMALL * LINE * len(texts) + 0.06, tuple(lines(texts, (0.0, 0.0), SMALL)))


def _beyond(layout: Layout, trim: Trim, section: Section) -> Iterator[Message]:
    """Yield what the shop's brake cannot form."""
    shop, widths = layout.scene.shop, _widths(layout, section)
    longest = max((length for length, _ in trim.counts), default=0.0)
    if shop.brake is not None and longest > shop.brake:
        yield message(
            "Longer than the brake: have {length} formed elsewhere, or buy shorter lengths.",
            length=Length(longest),
        )
    if shop.smallest_leg is not None:
        narrow = tuple(leg_words(name) for name, wide in widths.items() if wide < shop.smallest_leg)
        if narrow:
            yield message(
                "Narrower than the brake grips, {least}: {legs}.",
                least=Length(shop.smallest_leg),
                legs=Listed(narrow),
            )


def _widths(layout: Layout, section: Section) -> Mapping[str, float]:
    """Return the width of every leg to the outside of its bends, inches; of a face as it is on this edge."""
    spec = {**catalogue(), **layout.scene.profile}.get(section.profile)
    asked = {leg.name: leg.width for leg in spec.legs} if spec is not None else {}
    edges = outer_edges(section)
    found = {}
    for number, leg in enumerate(section.legs):
        low = 0.0 if number == 0 else edges[number - 1][1]
        high = section.width if number == len(section.legs) - 1 else edges[number][0]
        formed = high - low
        own = asked.get(leg.name, formed)
        found[leg.name] = own if abs(formed - own) < 1 / 8 else formed
    return found


def _section(section: Section, widths: Mapping[str, float], steps: Sequence[BendStep], say: Speaker) -> Block:
    """Return the section with its bends numbered in their order and its legs named at the right."""
    low, high = section.points.min(axis=0), section.points.max(axis=0)
    size = np.maximum(high - low, 1e-6)
    names = [
        say("{leg} {width}", leg=leg_words(leg.name), width=Length(widths[leg.name])) for leg in section.legs
    ]
    room = min(max(NAMES, *(width_of(name, SMALL) for name in names)), NAMES + DRAWN - LEAST)
    scale = min((NAMES + DRAWN - room) / size[0], TALL / size[1])

    def at(point: np.ndarray) -> tuple[float, float]:
        return (
            0.15 + float(point[0] - low[0]) * scale,
            -0.2 - float(high[1] - point[1]) * scale,
        )

    items: list[Item] = [Stroke(tuple(at(point) for point in section.points), 0.022, INK, name="metal")]
    for leg in section.legs:
        ends = section.points[leg.strip : leg.strip + 2] + section.normals[leg.strip] * PAINT / scale
        items.append(Stroke((at(ends[0]), at(ends[1])), 0.005, SOFT, name="paint"))
    marks = [
        Dimension(at(section.points[leg.strip : leg.strip + 2].mean(axis=0)), shortened(name, SMALL, room))
        for leg, name in zip(section.legs, names, strict=True)
    ]
    right = 0.15 + float(size[0]) * scale + 0.2
    tall = max(room_for(marks), float(size[1]) * scale)
    middle = -0.2 - float(size[1]) * scale / 2
    named = column(
        sorted(marks, key=lambda mark: mark.at[1]), right, middle - tall / 2, middle + tall / 2, right=True
    )
    taken = [shapely.LineString([at(point) for point in section.points]).buffer(PAINT + 0.02)]
    taken += [shapely.LineString(item.points) for item in named if isinstance(item, Stroke)]
    items += named
    for order, step in enumerate(steps, 1):
        bend = section.bends[step.number]
        place = _clear(at(section.points[bend.first : bend.last + 1].mean(axis=0)), taken)
        taken.append(shapely.Point(place).buffer(NUMBER))
        items += numbered(order, place, NUMBER)
    foot = max(-middle + tall / 2, 0.2 + float(size[1]) * scale)
    return Block(foot + 0.2, tuple(items))


def _clear(bend: tuple[float, float], taken: Sequence[shapely.Geometry]) -> tuple[float, float]:
    """Return the place of a bend's number: as near to the bend as it stands clear of what is drawn."""
    for far in (0.15, 0.2, 0.26, 0.33, 0.42):
        for turn in range(16):
            angle = math.pi * (turn + 0.5) / 8
            place = (bend[0] + far * math.cos(angle), bend[1] + far * math.sin(angle))
            disc = shapely.Point(place).buffer(NUMBER)
            if place[0] > NUMBER and not any(disc.intersects(other) for other in taken):
                return place
    return bend
