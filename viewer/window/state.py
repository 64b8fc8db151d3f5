"""What the window shows, and what each key makes of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from trimwright.model.message import Message, message

from ..display.setting_steps import SettingStep
from ..display.stage import Stage
from ..display.view import HOUSE, METAL, OUTSIDE, PANELS, ViewPoint


@dataclass(frozen=True, slots=True)
class State:
    """What is shown.

    Attributes:
        view: Name of the view point that was gone to last.
        done: How many steps of the order of install are done.
        chosen: Mark of the piece that is read; None for none.
        finding: Number of the finding that is read; None for none.
        marks: Whether what is written into the view is seen.
        pins: Whether findings are pinned into it.
        panels: Whether the panels are seen.
        apart: Whether pieces are told apart by color.
        keys: Whether the keys are listed.
    """

    view: str
    done: int
    chosen: str | None = None
    finding: int | None = None
    marks: bool = True
    pins: bool = False
    panels: bool = False
    apart: bool = True
    keys: bool = False


KEYS: tuple[tuple[Message, Message], ...] = (
    (message("v, b"), message("next view, view before")),
    (message("1 to 9"), message("one of the first nine views")),
    (message("Home"), message("back to where the view began")),
    (message("Right, Left"), message("set the next piece, take one off")),
    (message("End, Delete"), message("all set, bare deck")),
    (message("n, m"), message("next finding, finding before")),
    (message("f"), message("findings pinned, or not")),
    (message("t"), message("what is written, or not")),
    (message("p"), message("panels on, or off")),
    (message("c"), message("pieces told apart, or the finished look")),
    (message("click"), message("read a piece, or the finding of a pin")),
    (message("Escape"), message("let go of it")),
    (message("s"), message("save this view as a picture")),
    (message("h"), message("these keys, or not")),
    (message("q"), message("close")),
)
"""What each key does, in the order in which they are listed."""


def at_view(stage: Stage, name: str, done: int) -> State:
    """Return the state in which a view point shows what it is made for."""
    view = stage.view(name)
    return State(
        view.name, done, pins=view.pins, panels=bool(view.shows & PANELS), apart=view.coloring == "pieces"
    )


def pressed(key: str, state: State, stage: Stage, steps: Sequence[SettingStep]) -> State:
    """Return the state after a key; the same one when the key means nothing."""
    views, count = list(stage.album), len(steps)
    if key in ("v", "b"):
        here = views.index(state.view) if state.view in views else 0
        return at_view(stage, views[(here + (1 if key == "v" else -1)) % len(views)], count)
    if key.isdigit() and 0 < int(key) <= len(views):
        return at_view(stage, views[int(key) - 1], count)
    if key == "Home":
        return at_view(stage, state.view, count)
    if key in ("Right", "Left"):
        return _stepped(state, steps, min(max(state.done + (1 if key == "Right" else -1), 0), count))
    if key in ("End", "Delete"):
        return replace(state, done=count if key == "End" else 0, chosen=None)
    if key in ("n", "m") and stage.pins:
        first = 0 if key == "n" else len(stage.pins) + 1
        at = (state.finding or first) + (1 if key == "n" else -1)
        number = (at - 1) % len(stage.pins) + 1
        return replace(state, finding=number, chosen=None, pins=True)
    switched = {
        "f": replace(state, pins=not state.pins),
        "t": replace(state, marks=not state.marks),
        "p": replace(state, panels=not state.panels),
        "c": replace(state, apart=not state.apart),
        "h": replace(state, keys=not state.keys),
        "Escape": replace(state, chosen=None, finding=None, keys=False),
    }
    return switched.get(key, state)


def _stepped(state: State, steps: Sequence[SettingStep], done: int) -> State:
    """Return the state with ``done`` steps done, and the piece that was just set chosen."""
    last = steps[done - 1] if done else None
    set_now = last is not None and last.kind == "trim" and done < len(steps)
    chosen = next(iter(last.names)) if last is not None and set_now else None
    panels = state.panels or (last is not None and last.kind == "panels")
    return replace(state, done=done, chosen=chosen, finding=None, panels=panels)


def seen_of(stage: Stage, steps: Sequence[SettingStep], state: State) -> tuple[Stage, ViewPoint]:
    """Return what stands, and the view as the state has it: the view point itself when nothing was switched."""
    view = stage.view(state.view)
    untouched = at_view(stage, state.view, len(steps))
    if replace(state, chosen=None, finding=None, keys=False) == untouched:
        return stage, view
    names = {
        kind: {name for step in steps[: state.done] if step.kind == kind for name in step.names}
        for kind in ("trim", "panels")
    }
    bodies = tuple(
        body
        for body in stage.bodies
        if body.kind in HOUSE | OUTSIDE or body.name in names["trim" if body.kind in METAL else "panels"]
    )
    screws = tuple(screw for screw in stage.screws if screw.mark in names["trim"])
    labels = view.labels or stage.labels
    written = tuple(label for label in labels if label.mark is None or label.mark in names["trim"])
    shown = replace(
        view,
        shows=(view.shows - PANELS) | (PANELS if state.panels else frozenset()),
        coloring="pieces" if state.apart else "finish",
        labels=written if state.marks and not state.pins else (),
        lines=view.lines if state.marks else (),
        pins=state.pins,
        key=view.key if state.apart else (),
    )
    return replace(stage, bodies=bodies, screws=screws), shown
