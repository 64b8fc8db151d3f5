"""The overview of a run: the whole edge in one line, with its pieces, laps, seams and findings."""

from __future__ import annotations

from collections.abc import Callable

from trimwright.model.layout import Part

from ..ink.drawing import Area, Item, Stroke, Words
from ..ink.label_row import spread
from ..ink.letters import width_of
from ..ink.shapes import hatched, rectangle
from ..ink.style import BODY, INK, SMALL, SOFT, WASH
from ..paper.flow import Block
from ..paper.pins import HEIGHT, FindingPin, along, draw_pin, numbers, pin_width, worst
from .run_facts import RunFacts

BAR = 0.22
"""Height of the bar, inches on the paper."""

TOGETHER = 0.16
"""Findings closer than this share a pin, inches on the paper."""


def overview(facts: RunFacts, width: float) -> Block:
    """Return the whole run in one line, ``width`` inches wide."""
    low, high = facts.reach
    ratio = width / (high - low)

    def place(u: float) -> float:
        along_it = (u - low) * ratio
        return width - along_it if facts.aspect.mirrored else along_it

    top = -(HEIGHT + 0.16) if facts.pins else -0.04
    bottom = top - BAR
    marks = [(place((part.low + part.high) / 2), part.mark, True) for part in facts.parts]
    items = [
        *_bar(facts, place, bottom, top),
        *_row(marks, bottom - 0.19, width),
        *_pins(facts, place, top, width),
    ]
    return Block(0.28 - bottom, tuple(items))


def _bar(facts: RunFacts, place: Callable[[float], float], bottom: float, top: float) -> list[Item]:
    """Return the pieces as one bar, seams across it, laps hatched."""
    items: list[Item] = []
    for seam in facts.seams:
        x = place(seam.u)
        items.append(Stroke(((x, bottom - 0.05), (x, top + 0.05)), 0.006, SOFT, name="seam"))
    for part in _under_first(facts):
        xs = sorted((place(part.low), place(part.high)))
        ring = rectangle(xs[0], bottom, xs[1], top)
        items += [
            Area((ring,), WASH if part.piece.short else "#ffffff", "piece"),
            Stroke(ring, 0.012, INK, closed=True, name="piece"),
        ]
    for part in facts.parts:
        for lap in part.ends.laps:
            if lap.lies == "over":
                xs = sorted((place(lap.outermost), place(lap.inward(lap.lap or 0.0))))
                items += hatched(xs[0], bottom, xs[1], top, 0.04)
    return items


def _under_first(facts: RunFacts) -> list[Part]:
    """Return the pieces so that each comes before those that lie over it."""
    left = list(facts.parts)
    result: list[Part] = []
    while left:
        marks = {part.mark for part in left}
        free = next(
            (p for p in left if not any(e.lies == "over" and marks & {*e.others} for e in p.ends.laps)),
            left[0],
        )
        result.append(free)
        left.remove(free)
    return result


def _row(texts: list[tuple[float, str, bool]], y: float, width: float) -> list[Item]:
    """Return texts in one row, each near its place; where they do not all fit, every second, third ... of them."""
    texts = sorted(texts)
    for size, every in ((BODY, 1), *((SMALL, every) for every in range(1, len(texts) + 1))):
        shown = texts[::every]
        widths = [width_of(text, size, bold) + 0.08 for _, text, bold in shown]
        places = spread([x for x, _, _ in shown], widths, 0.0, width)
        if places is not None:
            return [
                Words(text, (at, y), size, "middle", bold=bold, color=INK, name="mark" if bold else "length")
                for (_, text, bold), at in zip(shown, places, strict=True)
            ]
    return []


def _pins(facts: RunFacts, place: Callable[[float], float], top: float, width: float) -> list[Item]:
    groups: list[tuple[float, list[FindingPin]]] = []
    for x, pin in sorted(((place(along(facts.run, pin)), pin) for pin in facts.pins), key=lambda p: p[0]):
        if groups and x - groups[-1][0] < TOGETHER:
            groups[-1][1].append(pin)
        else:
            groups.append((x, [pin]))
    texts = [numbers(pins) for _, pins in groups]
    places = spread([x for x, _ in groups], [pin_width(text) + 0.04 for text in texts], 0.0, width)
    items: list[Item] = []
    for (x, pins), text, at in zip(groups, texts, places or [], strict=False):
        items.append(Stroke(((at, top + 0.1), (x, top + 0.02)), 0.008, INK, name="pin"))
        items += draw_pin(text, (at, top + 0.1 + HEIGHT / 2), worst(pins))
    return items
