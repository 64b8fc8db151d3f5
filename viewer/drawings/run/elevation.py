"""Run elevations: a roof edge drawn straight, with its pieces, laps, seams, screws and findings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import Angle, Length, message
from trimwright.model.tolerances import LEVEL

from ...display.trim_looks import LOOKS
from ...report.short import ends_of
from ...report.words import marks_of
from ...words.speaker import Speaker
from ..ink.drawing import Drawing, Item
from ..ink.letters import wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, INK, SMALL, SOFT
from ..paper.flow import Block, flow, paragraph, space
from ..paper.page import Imprint, Paper, body_of, paged
from ..paper.phrases import HANDED, SIDES
from ..paper.pins import FindingPin, draw_pin, pin_width, pins_of
from .overview import overview
from .piece_strip import strips
from .run_facts import RunFacts, facts_of
from .strip_scale import scale_of

MOST_SEAMS = 60
"""More seams than these are not told one by one."""


def elevations(
    layout: Layout, findings: Sequence[Finding], paper: Paper, imprint: Imprint
) -> tuple[Drawing, ...]:
    """Return the elevations of all runs in their order, each on as many pages as it takes."""
    pins = pins_of(findings)
    return tuple(
        drawing for run in layout.runs for drawing in elevation(facts_of(layout, run, pins), paper, imprint)
    )


def elevation(facts: RunFacts, paper: Paper, imprint: Imprint) -> tuple[Drawing, ...]:
    """Return the elevation of one run on as many pages as it takes."""
    box = body_of(paper, imprint)
    pages = flow(_blocks(facts, box.width), box)
    title = f"{facts.run.code}  {facts.run.name}"
    return tuple(paged(title, pages, paper, imprint, (_aside(facts),)))


def _aside(facts: RunFacts) -> str:
    run = facts.run
    trim, profile = LOOKS[run.trim].name, run.section.profile
    if run.hand is None:
        return facts.say("{trim} trim, {profile}", trim=trim, profile=profile)
    return facts.say("{trim} trim, {profile}, {hand}", trim=trim, profile=profile, hand=HANDED[run.hand])


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
        yield finding_line(pin, facts.say, width)


def _seams(facts: RunFacts) -> str:
    end = ends_of(facts.run)[0]
    at = [seam.u for seam in facts.seams]
    if len(at) > MOST_SEAMS:
        return facts.say.counted(
            "{count} panel seam meets this edge, {first} to {last} from its {end}.",
            "{count} panel seams meet this edge, {first} to {last} from its {end}.",
            count=len(at),
            first=Length(at[0]),
            last=Length(at[-1]),
            end=end,
        )
    places = marks_of(at, facts.say.tape)
    return facts.say("Panel seams meet this edge at {places} from its {end}.", places=places, end=end)


def _seen(facts: RunFacts, ratio: float) -> str:
    """Return how the drawing is read: where the eye is, how the edge lies, and what the signs are."""
    edge, say = facts.run.edge, facts.say
    if abs(edge.slope) <= LEVEL:
        lie = message("level")
    else:
        lie = message("rises at {angle}° from its low end", angle=Angle(edge.slope, 1))
    return say(
        "Seen {from_where}; {lie}; the tape hooks on at the {side}. Large strips: 1 to {ratio} along the edge, not to "
        "scale across. Dots: screws. Dash and dot: panel seams. Slanted lines: laps; a dashed line is an end that is "
        "hidden.",
        from_where=facts.aspect.words,
        lie=lie,
        side=SIDES["right" if facts.aspect.mirrored else "left"],
        ratio=round(1 / ratio),
    )


def finding_line(pin: FindingPin, say: Speaker, width: float) -> Block:
    """Return a finding in short beside its pin."""
    text, finding = str(pin.number), pin.finding
    x = max(0.34, pin_width(text) + 0.1)
    if finding.accepted:
        words = say("{rule} (accepted): {found}", rule=finding.rule, found=finding.message)
    else:
        words = say("{rule}: {found}", rule=finding.rule, found=finding.message)
    texts = wrapped(words, BODY, width - x)
    items: list[Item] = [*draw_pin(text, (pin_width(text) / 2, -0.13), finding.severity)]
    items += lines(texts, (x, -0.045), BODY)
    return Block(max(0.24, BODY * 1.3 * len(texts) + 0.08), tuple(items))
