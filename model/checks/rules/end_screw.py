"""The last screw before an end of a piece is out of its band.

**Finds** an end of a piece whose nearest screw, in any row, is nearer to the end than the band, or farther
from where the metal ends in its row, or the closure that its screws hold in ends under it: where two caps run into
each other, the one on top goes on over the other one as a lap. A flap that is turned down is not counted: the piece
ends at its fold. An eighth of an inch is let pass, and the first screw of a run that climbs has its own rule.

**Fix** Move the screw into the band, or add one; a piece too short for the band at both ends has to be longer.

**Source** Common practice, no source: within 6 to 8 in of the end.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from ...joints.end import At
from ...message import Length, Message, message
from ...scene.draft import Changes
from ...screw_lines import OFF_LAP, face_under, formed_ends
from ...tolerances import HAND
from ..facts import Facts, PartSpan, ScrewRow, is_sloping
from ..proposals import for_run, laid_out_again, left_out, with_lengths, with_screws
from ..record import Finding, Severity

RULE = "end-screw"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "A screw nearer to the end tears the metal or lands in the lap; with one farther off, the end lifts."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each end of a piece whose screw is out of the band; the worst row speaks for it."""
    least, most = facts.layout.limits.band(RULE)
    for name, spans in facts.spans.items():
        for span in spans:
            rows = tuple(_over_what_holds(facts, span, row) for row in facts.rows[span.mark])
            if not rows:
                continue
            first = span is spans[0] and is_sloping(facts.runs[name])
            low, high = (u - span.low for u in formed_ends(span.part.sheet))
            ends: tuple[tuple[At, float, float], ...] = (
                ("low", *_low_end(rows, low)),
                ("high", *_high_end(rows, high)),
            )
            for end, near, far in ends:
                if near < least - HAND:
                    distance, problem = near, _too_near(end, near, least)
                elif far > most + HAND and not (first and end == "low"):
                    distance, problem = far, _too_far(end, far, most)
                else:
                    continue
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (span,),
                    span.low + (low + distance if end == "low" else high - distance),
                    problem,
                    _remedy(facts, span, end),
                    measured=distance,
                    proposals=_proposals(facts, span, end),
                )


def _over_what_holds(facts: Facts, span: PartSpan, row: ScrewRow) -> ScrewRow:
    """Return a row whose metal begins and ends no farther out than the closures under it."""
    face = face_under(span.part.run, row.leg.strip)
    first, last = facts.held.get((span.part.run.name, face), (-math.inf, math.inf))
    if last - first < row.at[-1] - row.at[0]:
        return row
    low, high = row.metal
    return replace(row, metal=(max(low, first - span.low), min(high, last - span.low)))


def _too_near(end: At, distance: float, least: float) -> Message:
    """Return that the screw at one end stands too near to it."""
    values = {"distance": Length(distance), "least": Length(least)}
    if end == "low":
        return message("the screw at the low end is {distance} from it, nearer than {least}", **values)
    return message("the screw at the high end is {distance} from it, nearer than {least}", **values)


def _too_far(end: At, distance: float, most: float) -> Message:
    """Return that the screw at one end stands too far from it."""
    values = {"distance": Length(distance), "most": Length(most)}
    if end == "low":
        return message("the screw at the low end is {distance} from it, more than {most}", **values)
    return message("the screw at the high end is {distance} from it, more than {most}", **values)


def _remedy(facts: Facts, span: PartSpan, end: At) -> Message:
    """Return where the screw belongs, or what lap or what length leaves room for it."""
    least, most = facts.layout.limits.band(RULE)
    band = {"least": Length(least), "most": Length(most)}
    shorter = _shorter_lap(facts, span, end)
    if shorter is not None:
        return message(
            "No screw goes through a lap, and this one covers the place for it, {least} to {most} from the end: make "
            "the lap {lap} or shorter.",
            lap=Length(shorter),
            **band,
        )
    if span.length < 2 * least:
        return message(
            "The piece is too short for that: make it {length} long or longer, and lay its screws again.",
            length=Length(2 * least),
        )
    if end == "low":
        return message("Put it {least} to {most} from the low end.", **band)
    return message("Put it {least} to {most} from the high end.", **band)


def _shorter_lap(facts: Facts, span: PartSpan, end: At) -> float | None:
    """Return the longest lap, on the tape, that leaves a screw its place at an end; None where the lap there does."""
    lap = (span.part.ends.low if end == "low" else span.part.ends.high).lap
    longest = facts.layout.limits.band(RULE)[1] - OFF_LAP
    return None if lap is None or lap <= longest + HAND else facts.layout.scene.tape.down(longest)


def _with_shorter_lap(facts: Facts, span: PartSpan, end: At, lap: float) -> tuple[Changes, ...]:
    """Return the changes that make a lap no longer than ``lap``: what is asked for, or the piece placed by hand."""
    run, scene = span.part.run, facts.layout.scene
    found = (span.part.ends.low if end == "low" else span.part.ends.high).lap or lap
    if run.spec.pieces is None or run.spec.lap > lap:
        return for_run(run, scene, "lap", scene.tape.typed(lap))
    number = span.part.piece.number + (end == "high")
    return *with_lengths(run, scene, {number: run.spec.lap - found}), laid_out_again(run, scene)


def _low_end(rows: tuple[ScrewRow, ...], end: float) -> tuple[float, float]:
    """Return the least distance of a first screw from the end, and the most from its own row's metal."""
    return min(float(row.at[0]) - end for row in rows), max(float(row.at[0]) - row.metal[0] for row in rows)


def _high_end(rows: tuple[ScrewRow, ...], end: float) -> tuple[float, float]:
    """Return the same for the last screws and the high end."""
    return (
        min(end - float(row.at[-1]) for row in rows),
        max(row.metal[1] - float(row.at[-1]) for row in rows),
    )


def _proposals(facts: Facts, span: PartSpan, end: At) -> tuple[Changes, ...]:
    """Return the changes that bring end screws into their band: a shorter lap, marks by hand, or what all are asked."""
    layout = facts.layout
    shorter = _shorter_lap(facts, span, end)
    if shorter is not None:
        return _with_shorter_lap(facts, span, end, shorter)
    placed, show = layout.scene.screws.placed.get(span.mark), layout.scene.tape
    if placed is None:
        asked = tuple(left_out(layout.scene, "ends"))
        return (asked,) if asked else ()
    least, most = layout.limits.band(RULE)
    low, high = (u - span.low for u in formed_ends(span.part.sheet))
    first, last = show.up(low + least), show.down(high - least)
    kept = [at for at in placed if first <= at <= last]
    if not kept or min(kept) > low + most:
        kept.append(first)
    if max(kept) < high - most:
        kept.append(last)
    return with_screws(layout, span.mark, kept)
