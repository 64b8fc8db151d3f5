"""What holds for all sheets of ends: whether pieces come formed, and what the lines of the drawings mean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trimwright.model.joints.end import End
from trimwright.model.message import Listed, Message, message

from ...words.speaker import Speaker
from ..ink.drawing import Area, Item, Stroke, Words
from ..ink.letters import width_of
from ..ink.shapes import rectangle
from ..ink.style import SMALL, SOFT
from ..paper.flow import Block, kept
from . import pattern
from .step_pictures import SAMPLES, is_flat


def forming_told(flat: bool) -> Iterator[Message]:
    """Yield what holds for all ends: whether pieces come formed, and how places on them are measured."""
    if flat:
        yield message(
            "Pieces are cut flat and formed afterwards. Every step marked flat comes before forming: mark the blank "
            "with its painted side up, by the measures from the inboard edge; those in brackets are what a rule reads "
            "on the formed piece. Where a step sets a piece dry, take its line from the figure or the template; where "
            "it works from the underside, work from above. Tabs are folded after forming."
        )
    else:
        yield message(
            "Pieces come formed. No cut comes before forming: every end is marked, cut and folded on the formed piece. "
            "Across a piece a rule hooks on to the fold, lip or edge that is named."
        )
    yield message(
        "Along a piece hook the tape on the end of the blank that is worked on, and set out all its marks before it is "
        "cut. Light: painted side. Dark: back."
    )


def end_forming(end: End, flat: bool) -> Message:
    """Return whether the piece of an end comes formed, and which steps come before forming."""
    if not flat:
        return message("Comes formed.")
    first = [number for number, step in enumerate(end.steps, 1) if is_flat(step)]
    after = [number for number, step in enumerate(end.steps, 1) if not is_flat(step)]
    if not first:
        return message("Formed first: no step comes before it.")
    if not after:
        return message("Cut flat: all steps come before forming.")
    return message(
        "Cut flat. Before forming: steps {first}. After it: {after}.",
        first=_stretches(first),
        after=_stretches(after),
    )


def _stretches(numbers: Sequence[int]) -> Listed:
    """Return rising numbers, those that follow each other as ``2 to 5``."""
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return Listed(
        tuple(
            str(each[0]) if len(each) == 1 else message("{first} to {last}", first=each[0], last=each[-1])
            for each in found
        ),
        "comma",
    )


def legend(width: float, say: Speaker) -> list[Block]:
    """Return how the drawings are read, as rows of samples; none of it hangs on color alone."""
    rows: list[list[Sample]] = [[]]
    for name, (weight, color, dash) in pattern.SAMPLES + SAMPLES:
        sample = Sample(say(name), weight, color, dash)
        if rows[-1] and _length([*rows[-1], sample]) > width:
            rows.append([])
        rows[-1].append(sample)
    return kept(Block(0.26, _sampled(row, max((width - _length(row)) / 2, 0.0))) for row in rows)


@dataclass(frozen=True, slots=True)
class Sample:
    """A line of a drawing and what it is called; of no weight: an area."""

    name: str
    weight: float
    color: str
    dash: tuple[float, ...]


def _length(samples: Sequence[Sample]) -> float:
    """Return how long a row of samples is, inches."""
    return sum(0.35 + width_of(sample.name, SMALL) + 0.12 for sample in samples) - 0.12


def _sampled(samples: Sequence[Sample], x: float) -> tuple[Item, ...]:
    items: list[Item] = []
    y = -0.1
    for sample in samples:
        if sample.weight:
            line = ((x, y), (x + 0.3, y))
            items.append(Stroke(line, sample.weight, sample.color, sample.dash, name="sample"))
        else:
            items.append(Area((rectangle(x, y - 0.05, x + 0.3, y + 0.05),), sample.color, "sample"))
        items.append(Words(sample.name, (x + 0.35, y - SMALL * 0.36), SMALL, color=SOFT, name="sample"))
        x += 0.35 + width_of(sample.name, SMALL) + 0.12
    return tuple(items)
