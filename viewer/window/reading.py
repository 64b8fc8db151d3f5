"""What is read in the corner of the window: a piece, a finding, the work at a corner, the keys."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length, Message, message
from trimwright.model.profiles.leg_words import leg_words
from trimwright.model.units import Tape

from ..display.ends import meets
from ..display.setting_steps import SettingStep
from ..display.stage import Stage
from ..display.view import LegendPart
from ..report.screw_marks import marks_by_leg
from ..report.terms import told_first
from ..report.words import SEVERITY, sentence_of
from .state import KEYS, State


@dataclass(frozen=True, slots=True)
class Row:
    """A line of what is read.

    Attributes:
        name: What it is about, or the number of it; empty for none.
        says: What is said of it.
        heading: It begins a part.
    """

    name: Message | str
    says: Message | str
    heading: bool = False


@dataclass(frozen=True, slots=True)
class Reading:
    """A heading, and lines under it."""

    heading: Message
    rows: tuple[Row, ...]


def reading_of(
    layout: Layout, findings: Sequence[Finding], stage: Stage, steps: Sequence[SettingStep], state: State
) -> Reading | None:
    """Return what is to be read; None when nothing is."""
    if state.keys:
        return Reading(message("Keys"), tuple(Row(keys, says) for keys, says in KEYS))
    if state.finding is not None:
        read = finding_reading(findings, state.finding, layout.scene.tape)
        return Reading(read.heading, (*read.rows, *_terms(layout, findings)))
    if state.chosen is not None:
        return piece_reading(layout, layout.part(state.chosen), steps)
    legend = stage.view(state.view).legend if state.marks else ()
    if legend:
        return Reading(stage.view(state.view).title, tuple(_rows(legend)))
    return None


def piece_reading(layout: Layout, part: Part, steps: Sequence[SettingStep]) -> Reading:
    """Return what is known of a piece, in a roofer's words."""
    place = next(step.number for step in steps if part.mark in step.names)
    length, stock = Length(part.length), Length(part.piece.stock)
    rows = (
        Row(message("run"), message("{run}", run=part.run.words)),
        Row(
            message("length"),
            message("{length}, the short piece", length=length)
            if part.piece.short
            else message("{length}", length=length),
        ),
        Row(message("cut from"), message("{length} stock", length=stock)),
        Row(message("hand"), HANDS[part.run.hand]),
        Row(message("low end"), meets(part.ends.low)),
        Row(message("high end"), meets(part.ends.high)),
        *_screws(layout, part),
        Row(message("set"), message("no. {number} of {count}", number=place, count=len(steps))),
    )
    return Reading(message("{mark}", mark=part.mark), rows)


def _screws(layout: Layout, part: Part) -> Iterator[Row]:
    """Yield where the screws of a piece go; of a cap whose wings have theirs at other places, wing by wing."""
    count, found = len(layout.screws_of(part.mark)), marks_by_leg(layout, part, layout.scene.tape)
    if not found:
        yield Row(message("screws"), message("none"))
    elif len(found) == 1:
        [places] = found.values()
        yield Row(message("screws"), message("{count}, at {places}", count=count, places=_whole(places)))
    else:
        yield Row(message("screws"), message("{count}", count=count))
        for leg, places in found.items():
            yield Row(message("{leg}", leg=leg_words(leg)), _whole(places))


HANDS = {
    "left": message("left, as seen from outside"),
    "right": message("right, as seen from outside"),
    None: message("none"),
}
"""The hand of a rake, and of what has none."""


def finding_reading(findings: Sequence[Finding], number: int, show: Tape) -> Reading:
    """Return what a finding says: what was measured, the limit and where it comes from, what to do."""
    finding = findings[number - 1]
    rows = [
        Row(message("where"), finding.where),
        Row("", sentence_of(finding, show)),
        Row(message("limit from"), finding.limit.source.whole),
    ]
    if finding.pieces:
        rows.insert(1, Row(message("pieces"), ", ".join(finding.pieces)))
    heading = message(
        "{number} of {count}  {severity}: {rule}",
        number=number,
        count=len(findings),
        severity=SEVERITY[finding.severity],
        rule=finding.rule,
    )
    return Reading(heading, tuple(rows))


def _terms(layout: Layout, findings: Sequence[Finding]) -> Iterator[Row]:
    """Yield by which terms the findings were found."""
    yield Row("", message("How it was checked"), heading=True)
    for term in told_first(layout, findings, layout.scene.tape):
        yield Row("", term)


def _rows(legend: Sequence[LegendPart]) -> Iterator[Row]:
    """Yield a view's legend as it is read."""
    for part in legend:
        yield Row("", part.heading, heading=True)
        for entry in part.entries:
            yield Row(str(entry.number), entry.says)


def _whole(marks: str) -> str:
    """Return tape marks that no line break falls into."""
    return marks.replace(" ", "\u00a0").replace(",\u00a0", ", ")
