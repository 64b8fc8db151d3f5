"""What the viewer says about each piece."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np

from trimwright.model.edge_kinds import KINDS
from trimwright.model.geometry.arrays import Array
from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Fine, Message, message
from trimwright.model.metals import METAL_WORDS
from trimwright.model.profiles.leg_words import leg_words
from trimwright.model.takeoff.plan import Plan

from ..data.flat_pattern import flat_of
from ..data.plain_values import plain
from ..display.color_math import hexed
from ..display.colors import SHORT
from ..display.ends import meets
from ..display.setting_steps import under_of
from ..display.trim_looks import LOOKS, tag_of
from ..report.short import spot_of
from ..report.sureness import fit_told
from ..words.key_names import WORK
from ..words.roof_names import named
from ..words.speaker import Speaker
from .shapes import METERS, to_meters, turned

Values = dict[str, Any]

DIGITS = 4
"""Decimals of an inch that drawings on a screen are given with."""

HANDS = {
    "left": message("left, as seen from outside"),
    "right": message("right, as seen from outside"),
    None: message("none: a level piece or a cap"),
}
"""Of a piece: which end of its run is the high one."""


def pieces_of(layout: Layout, place: Mapping[str, int], say: Speaker) -> list[Values]:
    """Return what is seen of every piece and written on it, in the order of the layout.

    Args:
        layout: All of it.
        place: The step at which each piece is set, by mark.
        say: In whose words.
    """
    counts = Counter(part.run.name for part in layout.parts)
    result = []
    for part in layout.parts:
        out, up, along = part.run.frame[:3, 1], part.run.frame[:3, 2], part.run.frame[:3, 0]
        result.append(
            {
                "mark": part.mark,
                "run": part.run.name,
                "called": named(part.run.name, say),
                "trim": part.run.trim,
                "tag": hexed(tag_of(SHORT if part.piece.short else LOOKS[part.run.trim].hue)),
                "covered": KINDS[part.run.trim].is_covered,
                "where": say(spot_of(part, counts[part.run.name]).name),
                "short": part.piece.short,
                "length": round(part.length, DIGITS),
                "says": say.tape(part.length),
                "step": place[part.mark],
                "under": list(under_of(layout, part)),
                "along": _plain(turned(along)),
                "facing": _plain(turned(facing_of(part, out, up))),
                "middle": _plain(to_meters(_middle(part))),
                "size": round(part.length * METERS, DIGITS),
            }
        )
    return result


def cards_of(layout: Layout, plans: Iterable[Plan], say: Speaker) -> list[Values]:
    """Return what the card of every piece says, in the order of the layout.

    Args:
        layout: All of it.
        plans: Which lengths of stock the pieces come out of.
        say: In whose words.
    """
    offcuts = {
        mark: bought.offcut
        for plan in plans
        for bought in plan.lengths
        if len(bought.pieces) == 1
        for mark in bought.pieces
    }
    metal = METAL_WORDS[layout.scene.metal.kind]
    cards: list[Values] = plain(
        [_card(part, layout, offcuts.get(part.mark, 0.0), metal, say) for part in layout.parts],
        DIGITS,
    )
    return cards


def _card(part: Part, layout: Layout, left: float, metal: Message, say: Speaker) -> Values:
    hand = part.piece.hand or part.run.hand
    fit = fit_told(layout, part.mark)
    thickness = part.run.section.thickness
    return {
        "mark": part.mark,
        "profile": part.run.section.profile,
        "hand": say(HANDS[hand]),
        "stock": say.tape(part.piece.stock),
        "left": say.tape(left) if left > 0.1 else None,
        "fit": None if fit is None else say(fit),
        "metal": say("{metal}, {thickness}", metal=metal, thickness=Fine(thickness)),
        "mirrored": hand == "right",
        "flat": flat_of(part),
        "legs": _legs(part, say),
        "formed": _formed(part),
        "thickness": thickness,
        "screws": [[screw.at, screw.across] for screw in layout.screws_of(part.mark)],
        "ends": {end.at: _end(end, part, say) for end in part.ends},
    }


def facing_of(part: Part, out: Array, up: Array) -> Array:
    """Return the direction from a piece to an eye that sees its face and its top."""
    if len(part.run.edge.faces) == 1:
        return np.asarray(out + up * 0.75)
    toward = np.array([0.5, -1.0, 0.0])
    side = 1.0 if out @ toward >= 0 else -1.0
    return np.asarray(up + out * side * 0.8)


def _legs(part: Part, say: Speaker) -> list[Values]:
    """Return the straight parts of a piece's section: from where to where they reach over the flat sheet."""
    section = part.run.section
    return [
        {
            "name": say("{leg}", leg=leg_words(leg.name)),
            "from": round(float(section.v[leg.strip]), DIGITS),
            "to": round(float(section.v[leg.strip + 1]), DIGITS),
        }
        for leg in section.legs
    ]


def _formed(part: Part) -> Values:
    """Return what takes a point of the flat pattern to where it lies on the roof.

    ``v`` are the lines across the sheet, inches, and ``section`` their places ``(out, up)``; ``place`` takes
    ``(u, out, up)``, inches, with ``u`` from the piece's low end, to meters, y up: three rows of four.
    """
    section, placement = part.run.section, part.placement[:3].copy()
    placement[:, 3] += placement[:, 0] * part.low
    return {
        "v": np.round(section.v, DIGITS).tolist(),
        "section": np.round(section.points, DIGITS).tolist(),
        "place": np.round(to_meters(placement.T).T, 7).tolist(),
    }


def _end(end: End, part: Part, say: Speaker) -> Values:
    """Return what happens at one end: what it meets there, its lap, and the steps of the work."""
    return {
        "says": say(meets(end)),
        "lap": None if end.lap is None else {"lies": end.lies, "with": end.others[0], "length": end.lap},
        "steps": [
            {
                "verb": step.verb,
                "work": say(WORK[step.verb]),
                "text": say(step.says),
                "lines": [[(u - part.low, v) for u, v in line] for line in step.lines],
            }
            for step in end.steps
        ],
    }


def _middle(part: Part) -> Array:
    """Return a point of the face of a piece, halfway along it, inches."""
    points = part.run.section.points
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    local = np.array([(part.low + part.high) / 2, *middle])
    return np.asarray(part.placement[:3, :3] @ local + part.placement[:3, 3])


def _plain(point: Array) -> list[float]:
    return [round(float(value), 5) for value in point]
