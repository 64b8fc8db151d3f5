"""Run elevations: a roof edge drawn straight, with its pieces, laps, seams, screws and findings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import Angle, Length, message
from trimwright.model.tolerances import LEVEL

from ...display.trim_looks import LOOKS
from ...report.short import ends_of
from ...report.words import marks_of
from ...words.roof_names import named
from ...words.speaker import Speaker
from ..ink.drawing import Item
from ..ink.letters import wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, INK, SMALL, SOFT
from ..paper.badge import badged
from ..paper.flow import Block, paragraph, space
from ..paper.phrases import HANDED, SIDES
from ..paper.pins import FindingPin, draw_pin, pin_width, pins_of
from .overview import overview
from .piece_strip import marks_alone, strips
from .run_facts import RunFacts, drawings, facts_of, paired
from .strip_scale import scale_of

MOST_SEAMS = 60
"""More seams than these are not told one by one."""


def elevations(layout: Layout, findings: Sequence[Finding], width: float, say: Speaker) -> Iterator[Block]:
    """Yield the elevations of all runs in their order, those that look the same drawn once.

    Args:
        layout: The layout.
        findings: What is wrong with it: their pins stand on the runs.
        width: To fill, inches.
        say: Puts everything into words.
    """
    pins = pins_of(findings)
    told = say(
        "Dots: screws. Dash and dot: panel seams. Slanted lines: laps; a dashed line is an end that is hidden. A black "
        "triangle: the tape hooks on there. Large strips are not to scale across. Pieces that one pattern of screws "
        "serves are drawn once; one without a drawing is like that above it, with screws of its own. Where a cap has "
        "marks on one side alone, both wings have the same."
    )
    yield paragraph(told, width, SMALL, color=SOFT, keep=True)
    for facts in paired([facts_of(layout, run, pins) for run in layout.runs]):
        yield from elevation(facts, width)


def elevation(facts: RunFacts, width: float) -> Iterator[Block]:
    """Yield the elevation of one run, ``width`` inches wide."""
    runs = [own.run for own in (facts, *facts.twins)]
    say, aside = facts.say, _aside(facts)
    code = ", ".join(run.code for run in runs)
    name = ", ".join(named(run.name, say) for run in runs)
    further = badged(code, say("{title}, continued", title=name), aside, width)
    yield badged(code, name, aside, width)
    scale = scale_of(facts, width)
    yield replace(paragraph(_seen(facts, scale.ratio), width, SMALL, color=SOFT), keep=True)
    yield overview(facts, width)
    for drawn, *others in drawings(facts):
        for strip in strips(facts, drawn, scale):
            yield replace(strip, head=further)
        for numbers in others:
            for strip in marks_alone(facts, numbers, scale):
                yield replace(strip, head=further)
    if facts.seams:
        yield replace(paragraph(_seams(facts), width, SMALL, color=INK), head=further)
    for pin in facts.pins:
        yield replace(finding_line(pin, say, width), head=further)
    yield space(0.06)


def _aside(facts: RunFacts) -> str:
    run = facts.run
    trim, profile = LOOKS[run.trim].name, run.section.profile
    if run.hand is None:
        return facts.say("{trim} trim, {profile}", trim=trim, profile=profile)
    return facts.say("{trim} trim, {profile}, {hand}", trim=trim, profile=profile, hand=HANDED[run.hand])


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
        "{length} of roof edge, seen {from_where}; {lie}; the tape hooks on at the {side}. Large strips: 1 to {ratio}.",
        length=Length(facts.run.length),
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
