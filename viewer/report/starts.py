"""The starting rules side by side: one scene laid out by each of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import get_args

from rich import box
from rich.table import Table

from trimwright.model.checks.run import check
from trimwright.model.checks.sight import seen_laps
from trimwright.model.errors import Problem, SceneError, TrimwrightError
from trimwright.model.layout import Layout
from trimwright.model.message import Length, Message, message
from trimwright.model.pipeline import build
from trimwright.model.scene.schema import Scene
from trimwright.model.scene.trim import Start
from trimwright.model.size_guard import MOST, Amount
from trimwright.model.takeoff.count import take_off
from trimwright.model.tolerances import LEVEL

from ..words.speaker import speaker_of
from .short import ShortPiece, shortest_first

SET_ASIDE = message("Lengths and screws placed by hand are set aside here.")
"""What is said of a scene that gives any."""

STARTS: tuple[Start, ...] = get_args(Start)


def started(scene: Scene, start: Start) -> Scene:
    """Return ``scene`` with every run started by one rule; lengths and screws given by hand are set aside."""
    trims = {
        kind: trim and trim.model_copy(update={"start": start, "pieces": None})
        for kind, trim in scene.trim.items()
    }
    runs = {
        name: override and override.model_copy(update={"start": start, "pieces": None})
        for name, override in scene.run.items()
    }
    return scene.model_copy(
        update={
            "trim": trims,
            "run": runs,
            "screws": scene.screws.model_copy(update={"placed": {}}),
        }
    )


def placed_by_hand(scene: Scene) -> bool:
    """Return whether ``scene`` gives lengths or screws by hand, which the starting rules set aside."""
    trims = [*scene.trim.values(), *scene.run.values()]
    return bool(scene.screws.placed) or any(trim is not None and trim.pieces is not None for trim in trims)


def layouts_by_start(scene: Scene, most: Amount = MOST) -> dict[str, Layout]:
    """Return a layout for every starting rule that makes one, if it takes no more than ``most``.

    Raises:
        SceneError: None of them does.
    """
    layouts: dict[str, Layout] = {}
    refused: dict[Start, tuple[Problem, ...]] = {}
    for start in STARTS:
        try:
            layouts[start] = build(started(scene, start), most)
        except TrimwrightError as error:
            refused[start] = error.problems
    if not layouts:
        raise SceneError(*_told_once(refused))
    return layouts


def _told_once(refused: Mapping[Start, tuple[Problem, ...]]) -> Iterator[Problem]:
    """Yield what every starting rule meets with, and what only some do, with the rule."""
    common = [one for one in refused[STARTS[0]] if all(one in problems for problems in refused.values())]
    yield from common
    for start, problems in refused.items():
        for one in problems:
            if one not in common:
                told = message("start = '{start}': {problem}", start=start, problem=one.message)
                yield replace(one, message=told)


def starts_table(layouts: Mapping[str, Layout]) -> Table:
    """Return what each starting rule comes to.

    Joints in sight are the laps that people see, on the street's side where the scene names one, and over doors. The
    lowest lap of the rakes says how near to the eye it comes.
    """
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False)
    say = speaker_of(next(iter(layouts.values())).scene)
    table.add_column(say("start"))
    table.add_column(say("pieces"), justify="right")
    table.add_column(say("short piece"), overflow="fold")
    for name in (say("joints in sight"), say("lowest rake lap"), say("waste"), say("errors")):
        table.add_column(name, justify="right")
    for start, layout in layouts.items():
        short = shortest_first(layout)
        laps = list(seen_laps(layout))
        up = [lap.lower.high for lap in laps if lap.run.edge.slope > LEVEL]
        table.add_row(
            start,
            str(len(layout.parts)),
            say(_shortest(short[0])) if short else say("none"),
            str(len(laps)),
            say.tape(min(up)) if up else say("none"),
            f"{take_off(layout, layout.scene.buy).waste:.0%}",
            str(sum(finding.severity == "error" for finding in check(layout))),
        )
    return table


def _shortest(piece: ShortPiece) -> Message:
    return message("{length}, {mark} {at}", length=Length(piece.length), mark=piece.mark, at=piece.spot.at)
