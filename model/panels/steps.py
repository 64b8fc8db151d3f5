"""How a panel is made by hand: what to cut to which size, which ends are beveled, what is folded in which order."""

from __future__ import annotations

from collections.abc import Iterator

from ..geometry.arrays import Array
from ..message import Angle, Length, Message, Place, message
from ..sheet.sheet import Cut, Tab
from ..steps import Line, Step
from ..tolerances import TAPE
from .record import EndCut, Panel

SQUARE = 0.01
"""A cut that leaves square by less than this, radians, is cut square."""


def panel_steps(panel: Panel) -> tuple[Step, ...]:
    """Return the hand-tool steps of a panel in order; places are measured from its sheet's low end."""
    return (
        Step(
            "cut",
            message(
                "Cut the sheet {length} long and {width} wide.",
                length=Length(panel.length),
                width=Length(panel.width),
            ),
        ),
        *_ends(panel, panel.sheet.low, [end for end in panel.ends if end.at == "low"]),
        *_ends(panel, panel.sheet.high, [end for end in panel.ends if end.at == "high"]),
        *_edges(panel),
    )


def _ends(panel: Panel, cut: Cut, ends: list[EndCut]) -> Iterator[Step]:
    """Yield what is marked, cut and folded at one end."""
    low = panel.sheet.extent[0]
    flaps = [tab for tab in cut.tabs if tab.on is None]
    made = [end for end in ends if end.ending != "plain"]
    for end, tab in zip(made, flaps, strict=False):
        (first, _), (last, _) = tab.hinge.tolist()
        line = _line(tab)
        if abs(end.bevel) > SQUARE:
            yield Step(
                "mark",
                message(
                    "Draw the fold line along the {edge}: {left} from the low end at its left, {right} at its right, "
                    "{bevel} degrees off square.",
                    edge=end.border,
                    left=Place(first - low),
                    right=Place(last - low),
                    bevel=Angle(abs(end.bevel)),
                ),
                (line,),
            )
        yield Step(
            "cut",
            message(
                "Cut the seam edges back to the fold line, and the end {width} beyond it.",
                width=Length(tab.width),
            ),
            (_flap(tab),),
        )
        hook = next((one for one in cut.tabs if one.on is tab), None)
        yield Step("fold", _fold(end, tab, hook), (line,) if hook is None else (line, _line(hook)))


def _fold(end: EndCut, tab: Tab, hook: Tab | None) -> Message:
    """Return how the flap of an end is folded."""
    if hook is not None:
        return message(
            "Fold the end down {drop} and back {hook} under, to hook the lip of the {edge}.",
            drop=Length(tab.width),
            hook=Length(hook.width),
            edge=end.border,
        )
    if tab.angle < 0:
        return message(
            "Turn the end up {height} along the {edge}.", height=Length(tab.width), edge=end.border
        )
    return message("Turn the end down {height} over the {edge}.", height=Length(tab.width), edge=end.border)


def _edges(panel: Panel) -> Iterator[Step]:
    """Yield the folds of the long edges."""
    told = {
        "over": (
            message("Fold the left edge up, over and in: it laps over the panel beside it."),
            message("Fold the right edge up, over and in: it laps over the panel beside it."),
        ),
        "under": (
            message("Fold the left edge up and over: it lies under the panel beside it."),
            message("Fold the right edge up and over: it lies under the panel beside it."),
        ),
        "hooked": (
            message("Fold the left edge down and back under, to hook the lip of the rake."),
            message("Fold the right edge down and back under, to hook the lip of the rake."),
        ),
        "turned down": (message("Turn the left edge down."), message("Turn the right edge down.")),
        "turned up": (message("Turn the left edge up."), message("Turn the right edge up.")),
    }
    section, (low, high) = panel.sheet.section, panel.sheet.extent
    pan = section.strip_of("pan")
    for side, edge in enumerate(panel.edges):
        bends = [bend for bend in section.bends if (bend.first < pan) == (side == 0)]
        if edge in told and bends and high - low > TAPE:
            lines = tuple(
                ((low, v), (high, v)) for bend in bends for v in [_middle(section.v, bend.first, bend.last)]
            )
            yield Step("fold", told[edge][side], lines)


def _middle(v: Array, first: int, last: int) -> float:
    return float((v[first] + v[last]) / 2)


def _line(tab: Tab) -> Line:
    return tuple((float(u), float(v)) for u, v in tab.hinge)


def _flap(tab: Tab) -> Line:
    return tuple((float(u), float(v)) for u, v in [tab.hinge[0], *tab.flap[::-1], tab.hinge[1]])
