"""Hand-tool steps in words and pictures: each shows the end before the step, and what the step does to it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

import shapely

from trimwright.model.joints.end import End
from trimwright.model.layout import Part
from trimwright.model.message import message

from ...words.names import WORK
from ...words.speaker import Speaker
from ..ink.drawing import Area, Item, Words, moved
from ..ink.letters import unbroken_tape, width_of, wrapped
from ..ink.shapes import circle, lines
from ..ink.style import INK, LINE, SMALL, SOFT
from ..paper.flow import Block
from .batches import unmarked
from .both_ends import eye_on
from .formed import OFF, FormedMetal, FormedView, WorkLine, form, look, placed
from .pattern import break_line
from .progress import EndState, end_states

RED, BLUE, GREEN = "#c8102e", "#1f4fa3", "#0a6b2d"

CUT = (0.028, RED, (0.09, 0.045))
FOLD = (0.02, GREEN, (0.12, 0.035, 0.02, 0.035))
DRAWN = (0.016, BLUE, (0.045, 0.03))
"""Width, color and dashes of what a step cuts, folds and draws: told apart without color, too."""

SAMPLES = (
    (message("cut next"), CUT),
    (message("comes off"), (0.0, OFF, ())),
    (message("fold next"), FOLD),
    (message("draw"), DRAWN),
)
"""What a reader has to know of the pictures: name; width, color and dashes."""

PICTURE = 0.88
"""Height of the pictures at most, inches."""

ENOUGH = 0.85
"""A view from above is kept when at least this part of the step's lines is in sight."""


@dataclass(frozen=True, slots=True)
class StepPicture:
    """A picture of one step.

    Attributes:
        view: What is seen.
        below: It is seen from below.
    """

    view: FormedView
    below: bool


def side_by_side(cells: Sequence[Block], step: float) -> Block:
    """Return blocks beside each other, one every ``step`` inches."""
    items = tuple(item for k, block in enumerate(cells) for item in moved(block.items, (k * step, 0.0)))
    return Block(max(block.height for block in cells), items)


def step_cells(part: Part, end: End, cell: float, say: Speaker, marks: Collection[str]) -> list[Block]:
    """Return a block for each step of one end, ``cell`` inches wide: its number, picture and sentence."""
    work = end_states(part, end)
    shots = _shots(part, end, work)
    if not shots:
        return []
    exact = replace(say, tape=unbroken_tape(say.tape))
    wide = max(shot.view.box[2] - shot.view.box[0] for shot in shots)
    high = max(shot.view.box[3] - shot.view.box[1] for shot in shots)
    scale = min((cell - 0.05) / wide, PICTURE / high)
    return [
        _cell(
            number,
            _head(state, shot, say),
            shot,
            cell,
            high * scale,
            scale,
            exact(unmarked(state.step, marks)),
        )
        for number, (state, shot) in enumerate(zip(work, shots, strict=True), start=1)
    ]


def _head(state: EndState, shot: StepPicture, say: Speaker) -> tuple[str, str]:
    """Return what kind of work a step is, and from where it is seen if not from above."""
    return say(WORK[state.step.verb]), say("seen from below") if shot.below else ""


def _cell(
    number: int,
    head: tuple[str, str],
    shot: StepPicture,
    width: float,
    tall: float,
    scale: float,
    text: str,
) -> Block:
    verb, seen = head
    left, low, right, top = shot.view.box
    beside = 0.22 + width_of(verb, SMALL, bold=True) + 0.08 + width_of(seen, SMALL) <= width
    first = -0.1 - SMALL * 0.36
    down = 0.24 if beside or not seen else 0.24 + SMALL * LINE
    x = (width - (right - left) * scale) / 2
    y = -down - (tall - (top - low) * scale) / 2
    items: list[Item] = list(placed(shot.view, scale, (x - left * scale, y - top * scale)))
    items += _number(number, (0.09, -0.1))
    items.append(Words(verb, (0.22, first), SMALL, bold=True, color=INK, name="verb"))
    if seen:
        line = first if beside else first - SMALL * LINE
        items.append(Words(seen, (width, line), SMALL, "end", color=SOFT, name="view"))
    texts = wrapped(text, SMALL, width)
    base = -down - tall - 0.06
    items += lines(texts, (0.0, base), SMALL)
    return Block(-base + SMALL * LINE * len(texts) + 0.09, tuple(items))


def _shots(part: Part, end: End, work: Sequence[EndState]) -> list[StepPicture]:
    """Return the pictures of all stages; metal that has not changed is folded and looked at only once."""
    window = _window(part, end)

    @cache
    def looked_at(number: int, below: bool) -> FormedMetal:
        stage = work[number]
        metal = stage.metal.intersection(window)
        return form(part.run.section, metal, stage.folded, eye_on(part, end.at, below), stage.metal.boundary)

    shots = []
    same = 0
    for number, stage in enumerate(work):
        if stage.metal is not work[same].metal:
            same = number
        lines, waste = list(_lines(stage)), stage.waste.intersection(window)
        view, below = look(looked_at(same, False), lines, waste), False
        asked = stage.step.verb == "turn" or stage.step.below
        if asked or view.shown < ENOUGH:
            other = look(looked_at(same, True), lines, waste)
            if asked or other.shown > view.shown + 0.1:
                view, below = other, True
        shots.append(StepPicture(view, below))
    return shots


def _lines(stage: EndState) -> Iterator[WorkLine]:
    for points in stage.cuts:
        yield WorkLine(points, *CUT, "cut")
    for points in stage.folds:
        yield WorkLine(points, *FOLD, "fold")
    for points in stage.marks:
        yield WorkLine(points, *DRAWN, "mark")


def _window(part: Part, end: End) -> shapely.Polygon:
    """Return the part of the sheet that the pictures of one end show."""
    near, far = end.reach
    room = max(2.5, (far - near) * 0.3)
    low, high = part.sheet.extent
    width = part.run.section.width
    inner, outer = (
        (min(far + room, high + 9), low - 9) if end.at == "low" else (max(near - room, low - 9), high + 9)
    )
    return shapely.Polygon([*break_line(inner, -9.0, width + 9.0, 0.1), (outer, width + 9), (outer, -9.0)])


def _number(number: int, at: tuple[float, float]) -> list[Item]:
    return [
        Area((circle(at, 0.09),), INK, "number"),
        Words(
            str(number),
            (at[0], at[1] - SMALL * 0.36),
            SMALL,
            "middle",
            bold=True,
            color="#ffffff",
            name="number",
        ),
    ]
