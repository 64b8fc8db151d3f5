"""Hand-tool steps in words and pictures: each shows the end before the step, and what the step does to it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import shapely

from trimwright.model.message import message
from trimwright.model.profiles.section import Section
from trimwright.model.steps import Step

from ...data.pattern_lines import is_mirrored
from ...words.key_names import WORK
from ...words.speaker import Speaker
from ..ink.drawing import Item, Words, moved
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines, numbered
from ..ink.style import INK, LINE, SMALL, SOFT
from ..paper.flow import Block
from .end_kinds import EndKind, PieceEnd
from .formed import OFF, FormedMetal, FormedView, WorkLine, eye, form, look, placed
from .hidden_lines import LineOfSight
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

CLOSE = 1.18
"""Distance from line to line of a step's sentence, as a share of its size: sentences are short."""

DOWN = 0.2
"""From the top of a step to its picture or its sentence, inches."""

PICTURE = 0.58
"""Height of the pictures at most, inches."""

ASIDE, HEIGHT, CAP_HEIGHT = 0.6, 0.42, 0.75
"""How far the eye goes round toward the end, and up: over trim and over caps, radians."""

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


@dataclass(frozen=True, slots=True)
class DrawnStep:
    """A step with its picture.

    Attributes:
        number: From 1.
        says: What to do.
        verb: What kind of work it is.
        seen: How it is seen if not formed and from above; empty otherwise.
        view: The picture; None of work that follows no line and does not turn the piece over.
    """

    number: int
    says: str
    verb: str
    seen: str
    view: FormedView | None


def drawn_steps(kind: EndKind, say: Speaker, flat: bool) -> list[DrawnStep]:
    """Return the steps of a kind of end with their pictures.

    Args:
        kind: The kind; its first end is drawn.
        say: Puts the steps into words.
        flat: The piece is cut flat and formed afterwards.
    """
    work = end_states(kind.first.part, kind.first.end)
    return [
        DrawnStep(
            number,
            say(kind.told(state.step)),
            say(WORK[state.step.verb]),
            _seen(state, shot, say, flat),
            None if shot is None else shot.view,
        )
        for number, (state, shot) in enumerate(
            zip(work, _shots(kind.first, work, flat), strict=True), start=1
        )
    ]


def step_cells(steps: Sequence[DrawnStep], width: float, under: bool, drawn: bool = True) -> list[Block]:
    """Return a block for each step, ``width`` inches wide: its number, picture and sentence.

    Args:
        steps: The steps.
        width: Of a block, inches.
        under: A step without a picture stands under the one before it.
        drawn: Draw them; otherwise the blocks are empty and only as high as they would be.
    """
    scale, high = _scale([step.view for step in steps if step.view is not None], width)
    cells: list[Block] = []
    for step in steps:
        if step.view is not None:
            cells.append(_cell(step, step.view, width, high, scale, drawn))
        elif cells and under:
            cells[-1] = _below(cells[-1], _told(step, width, drawn))
        else:
            cells.append(_told(step, width, drawn))
    return cells


def _below(upper: Block, lower: Block) -> Block:
    """Return one block under another, as one."""
    return Block(upper.height + lower.height, (*upper.items, *moved(lower.items, (0.0, -upper.height))))


def _told(step: DrawnStep, width: float, drawn: bool) -> Block:
    """Return a step without a picture: its number and its sentence."""
    texts = wrapped(step.says, SMALL, width)
    items = [*_numbered(step), *lines(texts, (0.0, -DOWN), SMALL, spacing=CLOSE)] if drawn else []
    return Block(DOWN + SMALL * CLOSE * len(texts) + 0.08, tuple(items))


def finished(one: PieceEnd) -> FormedView:
    """Return a piece's end as it is when all its work is done, seen from outside and above."""
    tabs = one.end.cut.tabs
    flaps = [shapely.Polygon(np.concatenate([tab.hinge, tab.flap])) for tab in tabs]
    metal = one.part.sheet.pattern.difference(shapely.union_all(flaps)).intersection(_window(one))
    return look(form(one.part.run.section, metal, tabs, eye_on(one), one.part.sheet.pattern.boundary))


def _scale(views: Sequence[FormedView], cell: float) -> tuple[float, float]:
    """Return the scale at which all pictures fit a cell, and how high the highest one is then, inches."""
    if not views:
        return 1.0, 0.0
    wide = max(view.box[2] - view.box[0] for view in views)
    high = max(view.box[3] - view.box[1] for view in views)
    scale = min((cell - 0.05) / wide, PICTURE / high)
    return scale, high * scale


def eye_on(one: PieceEnd, below: bool = False) -> LineOfSight:
    """Return a view of one end of a piece from outside, from above or from below."""
    height = CAP_HEIGHT if len(one.part.run.edge.faces) == 2 else HEIGHT
    return eye(is_mirrored(one.part), ASIDE if one.at_left else -ASIDE, -height - 0.1 if below else height)


def _seen(state: EndState, shot: StepPicture | None, say: Speaker, flat: bool) -> str:
    """Return how a step is seen if not formed and from above."""
    if flat and is_flat(state.step):
        return say("flat")
    return say("seen from below") if shot is not None and shot.below else ""


def is_flat(step: Step) -> bool:
    """Return whether a step is done on the flat sheet where pieces are formed after cutting."""
    return step.verb in ("mark", "cut", "turn")


def _numbered(step: DrawnStep) -> list[Item]:
    """Return the number of a step and what kind of work it is."""
    verb = Words(step.verb, (0.22, -0.09 - SMALL * 0.36), SMALL, bold=True, color=INK, name="verb")
    return [*numbered(step.number, (0.09, -0.09), 0.09), verb]


def _cell(step: DrawnStep, view: FormedView, width: float, tall: float, scale: float, drawn: bool) -> Block:
    """Return a step with its picture, ``tall`` inches high."""
    left, low, right, top = view.box
    beside = 0.22 + width_of(step.verb, SMALL, bold=True) + 0.08 + width_of(step.seen, SMALL) <= width
    seen = wrapped(step.seen, SMALL, width) if step.seen else ()
    first = -0.09 - SMALL * 0.36
    down = DOWN if beside else DOWN + SMALL * LINE * len(seen)
    texts = wrapped(step.says, SMALL, width)
    base = -down - tall - 0.04
    high = -base + SMALL * CLOSE * len(texts) + 0.08
    if not drawn:
        return Block(high, ())
    x = (width - (right - left) * scale) / 2
    y = -down - (tall - (top - low) * scale) / 2
    items = [*placed(view, scale, (x - left * scale, y - top * scale)), *_numbered(step)]
    line = first if beside else first - SMALL * LINE
    for row, text in enumerate(seen):
        items.append(Words(text, (width, line - SMALL * LINE * row), SMALL, "end", color=SOFT, name="view"))
    items += lines(texts, (0.0, base), SMALL, spacing=CLOSE)
    return Block(high, tuple(items))


def _shots(one: PieceEnd, work: Sequence[EndState], flat: bool) -> list[StepPicture | None]:
    """Return the pictures of all stages, None for work that follows no line and does not turn the piece over.

    Metal that has not changed is folded and looked at only once.
    """
    window, section = _window(one), one.part.run.section
    plan = eye(is_mirrored(one.part), 0.0, math.pi / 2)

    @cache
    def looked_at(number: int, below: bool, as_sheet: bool = False) -> FormedMetal:
        stage = work[number]
        metal = stage.metal.intersection(window)
        bent, seen_from = (_flattened(section), plan) if as_sheet else (section, eye_on(one, below))
        return form(bent, metal, stage.folded, seen_from, stage.metal.boundary)

    shots: list[StepPicture | None] = []
    same = 0
    for number, stage in enumerate(work):
        if not stage.step.lines and stage.step.verb != "turn":
            shots.append(None)
            continue
        if stage.metal is not work[same].metal:
            same = number
        lines, waste = list(_lines(stage)), stage.waste.intersection(window)
        if flat and is_flat(stage.step):
            shots.append(StepPicture(look(looked_at(same, False, True), lines, waste), False))
            continue
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


def _flattened(section: Section) -> Section:
    """Return a section as it lies on the bench before it is formed."""
    return replace(section, points=np.stack([section.v, np.zeros_like(section.v)], axis=1))


def _window(one: PieceEnd) -> shapely.Polygon:
    """Return the part of the sheet that the pictures of one end show."""
    near, far = one.end.reach
    room = max(2.5, (far - near) * 0.3)
    low, high = one.part.sheet.extent
    width = one.part.run.section.width
    inner, outer = (
        (min(far + room, high + 9), low - 9) if one.end.at == "low" else (max(near - room, low - 9), high + 9)
    )
    return shapely.Polygon([*break_line(inner, -9.0, width + 9.0, 0.1), (outer, width + 9), (outer, -9.0)])
