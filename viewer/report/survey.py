"""What a survey found, in sentences and rows: how the tapes agree, what none tells, how crooked each face is."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.layout import Layout
from trimwright.model.message import Angle, Length, Listed, Message, Slope, Value, counted, message
from trimwright.model.survey.record import Crooked, Survey, Taped, Untold
from trimwright.model.survey.telling import telling
from trimwright.model.tolerances import TAPE

HEADINGS = (
    message("Measured"),
    message("Planned"),
    message("Read"),
    message("Roof"),
    message("Misfit"),
    message("Checked by others"),
    message("Remarks"),
)
"""Of the columns of `rows_of`, what was measured itself before them."""


def survey_told(layout: Layout) -> Iterator[Message]:
    """Yield a sentence for each thing to know of a taped roof; none where nothing was taped."""
    survey = layout.survey
    if survey is None:
        return
    yield _agreement(survey)
    free = [one for one in survey.untold if not one.by_level]
    kept = tuple(_size(one) for one in free if one.is_as_planned)
    if kept:
        yield message("No tape tells these, and they stay as planned: {sizes}.", sizes=Listed(kept, "comma"))
    moved = tuple(
        message("{size} (planned: {planned})", size=_size(one), planned=_written(one, one.form))
        for one in free
        if not one.is_as_planned
    )
    if moved:
        yield message(
            "No tape tells these; they follow from the rest of the form: {sizes}.",
            sizes=Listed(moved, "comma"),
        )
    level = tuple(_size(one) for one in survey.untold if one.by_level)
    if level:
        yield message(
            "No tape tells these; they follow from eaves that are taken for level: {sizes}.",
            sizes=Listed(level, "comma"),
        )
    alone = tuple(tape.name for tape in survey.tapes if not tape.left_out and not tape.is_checked)
    if alone:
        yield message(
            "No other tape checks these, so tape them twice: {tapes}.", tapes=Listed(alone, "comma")
        )
    yield from _alike(survey, layout)
    for one in survey.crooked:
        yield from _crooked(one, layout)


def _agreement(survey: Survey) -> Message:
    """Return how many tapes there are, and how far the worst of them is off."""
    kept = [tape for tape in survey.tapes if not tape.left_out]
    lengths = [tape for tape in kept if tape.kind != "pitch"]
    if not lengths:
        return counted(
            "The roof is as it was taped: {count} measure.",
            "The roof is as it was taped: {count} measures.",
            count=len(kept),
        )
    worst = max(lengths, key=lambda tape: abs(tape.misfit))
    return counted(
        "The roof is as it was taped: {count} measure, the largest misfit of a length {misfit}, at {name}.",
        "The roof is as it was taped: {count} measures, the largest misfit of a length {misfit}, at {name}.",
        count=len(kept),
        misfit=Length(abs(worst.misfit)),
        name=worst.name,
    )


def _alike(survey: Survey, layout: Layout) -> Iterator[Message]:
    """Yield which tapes a mistake could not be told between, and what to tape to find it."""
    groups = dict.fromkeys(
        tuple(other.name for other in survey.tapes if other.name in (tape.name, *tape.like))
        for tape in survey.tapes
        if tape.like and tape.is_checked
    )
    for group in groups:
        more = telling(layout.roof, tuple(survey.by_name), group, layout.scene.accuracy)
        if more:
            yield message(
                "A mistake in one of these would show, but not in which: {tapes}. Tape as well: {more}.",
                tapes=Listed(group, "comma"),
                more=Listed(more),
            )
        else:
            yield message(
                "A mistake in one of these would show, but not in which, so tape them twice: {tapes}.",
                tapes=Listed(group, "comma"),
            )


def _size(one: Untold) -> Message:
    """Return a size that no tape tells, with what the roof has."""
    if one.kind == "pitch":
        return message("{name} {pitch}", name=one.name, pitch=Slope(one.value))
    if one.kind == "tilt":
        return message("{name}, {tilt} out of level", name=one.name, tilt=Length(abs(one.value)))
    return message("{name} {length}", name=one.name, length=Length(one.value))


def _crooked(one: Crooked, layout: Layout) -> Iterator[Message]:
    """Yield how far a face is out of square, and how its end panels taper for it."""
    face = layout.roof.faces[one.face].name
    if max(abs(one.left), abs(one.right), abs(one.taper)) > TAPE:
        yield message(
            "The {face} face is out of square: its left side ends {left} at the top, its right side {right}, and "
            "the far side is {taper}.",
            face=face,
            left=_aside(one.left),
            right=_aside(one.right),
            taper=_farther(one.taper),
        )
    tapered = tuple(
        message("{panel} from {low} to {high}", panel=panel.name, low=Length(low), high=Length(high))
        for panel in layout.panels_of(one.face)
        if panel.taper is not None
        for low, high in [panel.taper]
    )
    if tapered:
        yield message("Panels taper from foot to top: {panels}.", panels=Listed(tapered, "comma"))


def _aside(far: float) -> Message:
    if abs(far) <= TAPE:
        return message("square")
    if far > 0:
        return message("{far} to the right of square", far=Length(far))
    return message("{far} to the left of square", far=Length(-far))


def _farther(far: float) -> Message:
    if abs(far) <= TAPE:
        return message("as far from the eave at both ends")
    if far > 0:
        return message("{far} farther from the eave at its right end", far=Length(far))
    return message("{far} farther from the eave at its left end", far=Length(-far))


def rows_of(survey: Survey) -> list[tuple[Value, ...]]:
    """Return a row for each measure: its name, then what `HEADINGS` says."""
    return [
        (
            tape.name,
            _written(tape, tape.form),
            _written(tape, tape.read),
            _written(tape, tape.now),
            _misfit(tape),
            message("{share} %", share=f"{100 * tape.redundancy:.0f}") if not tape.left_out else "",
            _remark(tape, survey),
        )
        for tape in survey.tapes
    ]


def _written(one: Taped | Untold, value: float) -> Value:
    return Slope(value) if one.kind == "pitch" else Length(value)


def _misfit(tape: Taped) -> Value:
    if tape.kind == "pitch":
        return message("{angle}°", angle=Angle(tape.misfit, 2))
    return Length(tape.misfit)


def _remark(tape: Taped, survey: Survey) -> Value:
    if tape.left_out:
        return message("in doubt, left out: tape it again")
    if any(tape.name in doubt.tapes for doubt in survey.doubts):
        return message("may be wrong: tape it again")
    return "" if tape.is_checked else message("not checked by others: tape it twice")
