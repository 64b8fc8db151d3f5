"""What the drawing of an outline is made from: corners, gables, the roof over it, and where something is wrong."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from trimwright.model.errors import Problem
from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout
from trimwright.model.message import Length
from trimwright.model.roof.record import Edge
from trimwright.model.scene.outline import OutlineSpec
from trimwright.model.units import INCHES

from ..page.shapes import to_meters
from ..words.speaker import Speaker
from .fields import SMALL
from .outline_edits import lengths_of
from .outline_fields import PLAN, STEP, gables_in, rings_in, unit_in
from .reading import larger_unit
from .results import DrawnRoof
from .scene_text import value_at

Values = dict[str, Any]


def outline_told(
    text: str, drawn: DrawnRoof | None, problems: Sequence[Problem], say: Speaker
) -> Values | None:
    """Return what the drawing of an outline is made from; None for another form.

    Args:
        text: The scene.
        drawn: What is seen, of this text or of the last that could be built.
        problems: What keeps the text from being built.
        say: In whose words, on whose tape.
    """
    tables = tomllib.loads(text)
    if value_at(tables, ("roof", "form")) != "outline":
        return None
    unit = unit_in(tables)
    rings = [lengths_of(ring, unit) for ring in rings_in(tables)]
    current = drawn is not None and drawn.text == text
    return {
        "rings": [None if ring is None else ring.round(4).tolist() for ring in rings],
        "gables": sorted(gables_in(tables)),
        "edges": list(_edges(drawn.layout)) if drawn else [],
        "current": current,
        "step": STEP[say.tape.style],
        "bare": {"unit": unit, "larger": larger_unit(unit), "inches": float(INCHES[unit]), "small": SMALL},
        "tape": {"style": say.tape.style, "denominator": say.tape.denominator},
        "wrong": [place for problem in problems for place in [_place_of(problem, rings)] if place],
        "problem": " ".join(say(one.message) for one in problems if one.key in PLAN),
    }


def _edges(layout: Layout) -> Iterator[Values]:
    """Yield each edge of the deck: its kind, in plan, in the view, and the side that it lies over; None for none."""
    spec = layout.scene.roof
    if not isinstance(spec, OutlineSpec):
        return
    for edge in layout.roof.edges:
        ends = np.array([edge.start, edge.end])
        yield {
            "name": edge.name,
            "kind": edge.kind,
            "plan": ends[:, :2].round(3).tolist(),
            "seen": to_meters(ends).round(4).tolist(),
            "side": _side_under(edge, spec) if len(edge.faces) == 1 else None,
        }


def _side_under(edge: Edge, spec: OutlineSpec) -> int:
    """Return the number of the side that an edge lies over or, of a porch, before: the nearest of those along it."""
    starts = np.concatenate(spec.rings)
    ends = np.concatenate([np.roll(ring, -1, axis=0) for ring in spec.rings])
    way = ends - starts
    unit = way / np.linalg.norm(way, axis=1)[:, None]
    level = (edge.end - edge.start)[:2]
    turned = np.abs(unit[:, 0] * level[1] - unit[:, 1] * level[0])
    middle = (edge.start + edge.end)[:2] / 2
    share = np.clip(((middle - starts) * way).sum(axis=1) / (way**2).sum(axis=1), 0, 1)
    far = np.linalg.norm(middle - starts - share[:, None] * way, axis=1)
    return int((far + turned).argmin()) + 1


def _place_of(problem: Problem, rings: Sequence[Array | None]) -> Values | None:
    """Return where in the plan something is wrong: a side by its number, or a place in inches."""
    values = dict(problem.message.values)
    x, y = values.get("x"), values.get("y")
    if isinstance(x, Length) and isinstance(y, Length):
        return {"at": [x.inches, y.inches]}
    match problem.key:
        case ("roof", "sides", str(number), *_) if number.isdecimal():
            return {"side": int(number)}
        case ("roof", "outline", int(k), *rest) if not rest:
            return {"side": k + 1}
        case ("roof", "holes", int(hole), int(k)) if hole + 1 < len(rings):
            before = [len(ring) if ring is not None else 0 for ring in rings[: hole + 1]]
            return {"side": sum(before) + k + 1}
        case ("roof", "outline", int(k), int()):
            return {"corner": [0, k]}
        case ("roof", "holes", int(hole), int(k), int()):
            return {"corner": [hole + 1, k]}
        case _:
            side = values.get("side") or values.get("number")
            return {"side": side} if problem.key in PLAN and isinstance(side, int) else None
