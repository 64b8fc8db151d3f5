"""The formed piece as it is held: both ends in one view from outside, the middle of a long piece left out."""

from __future__ import annotations

import numpy as np
import shapely
from shapely import affinity

from trimwright.model.joints.end import At
from trimwright.model.layout import Part
from trimwright.model.sheet.sheet import Tab

from ...data.pattern_lines import is_mirrored
from ...words.speaker import Speaker
from ..ink.drawing import Item, Words
from ..ink.label_row import spread
from ..ink.letters import width_of, wrapped
from ..ink.style import LINE, SMALL, SOFT
from ..paper.phrases import ENDS
from .formed import FormedView, eye, form, look, placed
from .hidden_lines import LineOfSight
from .pattern import break_line

ASIDE, HEIGHT, CAP_HEIGHT = 0.6, 0.42, 0.75
"""How far the eye goes round toward the low end, and up: over trim and over caps, radians."""


def held(part: Part, width: float, height: float, say: Speaker) -> tuple[Item, ...]:
    """Return the formed piece drawn into a box that hangs from (0, 0), inches."""
    caption = wrapped(say("As it is held, seen from outside. Light: painted side. Dark: back."), SMALL, width)
    view, low_x, high_x = _view(part)
    left, low, right, top = view.box
    below = 0.6 + SMALL * LINE * (len(caption) - 1)
    scale = min((width - 0.1) / (right - left), (height - below) / (top - low))
    shift = ((width - (right - left) * scale) / 2 - left * scale, -0.05 - top * scale)
    base = -0.05 - (top - low) * scale - 0.17
    items: list[Item] = list(placed(view, scale, shift))
    names = {at: say(name) for at, name in ENDS.items()}
    halves = [max(0.35, width_of(name, SMALL, at == "low") / 2) for at, name in names.items()]
    wanted = {"low": low_x * scale + shift[0], "high": high_x * scale + shift[0]}
    order = sorted(wanted, key=lambda at: wanted[at])
    widths = [2 * halves[0 if at == "low" else 1] for at in order]
    places = spread([wanted[at] for at in order], widths, 0.0, width) or [wanted[at] for at in order]
    for at, x in zip(order, places, strict=True):
        items.append(Words(names[at], (x, base), SMALL, "middle", bold=at == "low", name="end"))
    for k, text in enumerate(caption):
        items.append(Words(text, (0.0, base - 0.19 - SMALL * LINE * k), SMALL, color=SOFT, name="caption"))
    return tuple(items)


def eye_on(part: Part, at: At, below: bool = False) -> LineOfSight:
    """Return a view of one end of a piece from outside, from above or from below."""
    aside = ASIDE if (at == "low") != is_mirrored(part) else -ASIDE
    height = CAP_HEIGHT if len(part.run.edge.faces) == 2 else HEIGHT
    return eye(is_mirrored(part), aside, -height - 0.1 if below else height)


def _view(part: Part) -> tuple[FormedView, float, float]:
    """Return the view, and where on its picture the low and the high end are, x in inches."""
    sheet, section, tabs = part.sheet, part.run.section, part.sheet.tabs
    low, high = sheet.extent
    size = float(np.ptp(section.points, axis=0).max())
    first = part.ends.low.innermost + size
    last = part.ends.high.innermost - size
    flaps = [shapely.Polygon(np.concatenate([tab.hinge, tab.flap])) for tab in tabs]
    metal = sheet.pattern.difference(shapely.union_all(flaps)) if flaps else sheet.pattern
    edge = metal.boundary
    if last - first > 2 * size:
        shift = first + 0.15 * size - last
        near = metal.intersection(_up_to(first, low - 9, section.width, size))
        far = metal.intersection(_up_to(last, high + 9, section.width, size))
        metal = shapely.union_all([near, affinity.translate(far, shift)])
        edge = shapely.union_all([edge, affinity.translate(edge, shift)])
        tabs = tuple(_moved(tab, shift) if tab.hinge[0, 0] > (first + last) / 2 else tab for tab in tabs)
        high += shift
    seen_from = eye_on(part, "low")
    view = look(form(section, metal, tabs, seen_from, edge))
    out, up = section.points.mean(axis=0)
    return view, float(seen_from.right @ [low, out, up]), float(seen_from.right @ [high, out, up])


def _up_to(inner: float, outer: float, width: float, size: float) -> shapely.Polygon:
    teeth = break_line(inner, -9.0, width + 9.0, 0.04 * size)
    return shapely.Polygon([*teeth, (outer, width + 9), (outer, -9)])


def _moved(tab: Tab, shift: float) -> Tab:
    along = np.array([shift, 0.0])
    return Tab(tab.strip, tab.hinge + along, tab.flap + along, tab.angle)
