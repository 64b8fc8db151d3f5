"""Run elevations: a roof edge drawn straight, with its pieces, laps, seams, screws and findings."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.tolerances import LEVEL

from ...report.short import ends_of
from ...report.words import marks_of
from ..ink.drawing import Drawing, Item
from ..ink.letters import wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, INK, SMALL, SOFT
from ..paper.flow import Block, flow, paragraph, space
from ..paper.page import Imprint, Paper, body_of, framed
from ..paper.pins import Pin, draw_pin, pin_width, pins_of
from .overview import overview
from .piece_strip import strips
from .run_facts import RunFacts, facts_of
from .strip_scale import scale_of

MOST_SEAMS = 60
"""More seams than these are not told one by one."""


def elevations(
    layout: Layout, findings: Sequence[Finding], paper: Paper, imprint: Imprint
) -> tuple[Drawing, ...]:
    """Return the elevations of all runs in their order, each on as many leaves as it takes."""
    pins = pins_of(findings)
    return tuple(
        drawing for run in layout.runs for drawing in elevation(facts_of(layout, run, pins), paper, imprint)
    )


def elevation(facts: RunFacts, paper: Paper, imprint: Imprint) -> tuple[Drawing, ...]:
    """Return the elevation of one run on as many leaves as it takes."""
    run, box = facts.run, body_of(paper)
    title = f"{run.code}  {run.name}"
    pages = flow(_blocks(facts, box.width), box)
    aside = f"{run.trim} trim, {run.section.profile}{f', {run.hand} hand' if run.hand else ''}"
    return tuple(
        framed(title if number == 1 else f"{title}, continued", items, paper, imprint, aside)
        for number, items in enumerate(pages, 1)
    )


def _blocks(facts: RunFacts, width: float) -> Iterator[Block]:
    scale = scale_of(facts, width)
    yield paragraph(_seen(facts, scale.ratio), width, SMALL, color=SOFT)
    yield space(0.04)
    yield overview(facts, width)
    for number in range(len(facts.parts)):
        yield from strips(facts, number, scale)
    if facts.seams:
        yield paragraph(_seams(facts), width, SMALL, color=INK)
    for pin in facts.pins:
        yield finding_line(pin, width)


def _seams(facts: RunFacts) -> str:
    show, (start, _) = facts.layout.scene.tape, ends_of(facts.run)
    at = [seam.u for seam in facts.seams]
    if len(at) > MOST_SEAMS:
        return f"{len(at)} panel seams meet this edge, {show(at[0])} to {show(at[-1])} from its {start}."
    return f"Panel seams meet this edge at {marks_of(at, show)} from its {start}."


def _seen(facts: RunFacts, ratio: float) -> str:
    run = facts.run
    low = "right" if facts.aspect.mirrored else "left"
    slope = math.degrees(run.edge.slope)
    lie = "level" if abs(run.edge.slope) <= LEVEL else f"rises at {slope:.1f}° from its low end"
    return (
        f"Seen {facts.aspect.words}; {lie}; the tape hooks on at the {low}. Large strips: 1 to {1 / ratio:.0f} "
        "along the edge, not to scale across. Dots: screws. Dash and dot: panel seams. Slanted lines: laps; a "
        "dashed line is an end that is hidden."
    )


def finding_line(pin: Pin, width: float) -> Block:
    """Return a finding in short beside its pin."""
    text = str(pin.number)
    x = max(0.34, pin_width(text) + 0.1)
    accepted = " (accepted)" if pin.finding.accepted else ""
    words = f"{pin.finding.rule}{accepted}: {pin.finding.message}"
    texts = wrapped(words, BODY, width - x)
    items: list[Item] = [*draw_pin(text, (pin_width(text) / 2, -0.13), pin.finding.severity)]
    items += lines(texts, (x, -0.045), BODY)
    return Block(max(0.24, BODY * 1.3 * len(texts) + 0.08), tuple(items))
