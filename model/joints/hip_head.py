"""Hip head: where hip caps and a ridge cap meet, or the hips alone on a pyramid.

On each face two caps meet; they are mitered on the line that halves the angle between them. The one on top runs
on over the other as a lap, cut to that cap's middle bend. Where a valley comes up between two caps, both end on it.

Source: common practice, no source; halving the angle: Longfield, *Sheet Metal Drafting* (1921) ch. XII.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..message import Length, Place, message
from ..roof.record import Edge, Roof
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut
from ..steps import Step
from ..tolerances import CLEARANCE, POINT
from .cap import HEM_SETBACK, Wing, close_middle, hem_cuts, set_wing, wings
from .end import End, JointKind, Lies, step, trace
from .lift import levels
from .meeting import Meeting, Met, either_end
from .stand import Stand

Array = NDArray[np.float64]

KIND = JointKind("hip head", message("hip head"), aloft=True)
LAP = 1.5
"""How far the cap on top runs on over its neighbour's wing, inches: common practice, no source."""

CAP = either_end("hip") | either_end("ridge")
MEETING = Meeting(
    ("hip", "ridge", "valley"),
    (CAP, CAP),
    more=True,
    last=lambda run: (run.trim == "ridge", run.code),
    turns=True,
    rests="stacked",
    overlap=LAP,
)


def fit(met: Met) -> list[End]:
    """Cut the ends of all caps that meet at one point."""
    return fit_caps(met)


def fit_caps(met: Met, kind: JointKind = KIND) -> list[End]:
    """Cut the ends of caps that meet each other, and valleys, at one point."""
    caps = met.ends
    level = levels([cap.run for cap in caps])
    apex = _apex(caps, met.roof)
    valleys = [edge for edge in met.edges if edge.kind == "valley"]
    return [_fit_one(i, caps, level, apex, valleys, kind) for i in range(len(caps))]


def _apex(caps: Sequence[Stand], roof: Roof) -> Array:
    """Return the point where the wings' mid planes meet; of a single cap the one above its end."""
    corner = caps[0].corner
    normals, heights = [], []
    for cap in caps:
        strip = wings(cap)[0].strip
        out_up = cap.section.normals[strip]
        for face in cap.run.edge.faces:
            normals.append(roof.faces[face].normal)
            heights.append(float(cap.section.points[strip] @ out_up))
    return np.asarray(corner + np.linalg.lstsq(np.array(normals), np.array(heights), rcond=None)[0])


def _fit_one(
    i: int, caps: Sequence[Stand], level: list[int], apex: Array, valleys: Sequence[Edge], kind: JointKind
) -> End:
    cap = caps[i]
    section = cap.section
    v = section.v
    ends = square_cut(section, 0.0)
    inside: dict[int, list[tuple[float, float]]] = {}
    others: list[str] = []
    over = under = False
    steps = []
    for wing in wings(cap):
        valley = next((edge for edge in valleys if wing.face in edge.faces), None)
        if valley is not None:
            steps.append(_on_valley(cap, wing, apex, valley, ends))
            continue
        j = next((j for j in range(len(caps)) if j != i and wing.face in caps[j].run.edge.faces), None)
        if j is None:
            u = cap.cut(apex, cap.away)[wing.strip]
            set_wing(ends, wing, float(u.mean()), float(u.mean()), HEM_SETBACK, cap.sign)
            continue
        others.append(caps[j].run.name)
        normal = caps[j].away - cap.away
        normal /= np.linalg.norm(normal)
        outer, inner = _in_out(cap, wing, apex, normal)
        slant = (inner - outer) / (v[wing.inner] - v[wing.outer])
        setback = HEM_SETBACK + abs(slant) * (v[-1] - v[wings(cap)[1].outer] + 0.1)
        miter = [(outer, float(v[wing.outer])), (inner, float(v[wing.inner]))]
        steps.append(
            step(
                "mark",
                message(
                    "On the {wing} draw the miter line, {at_inner} from the low end at the middle "
                    "bend and {at_outer} at the bend of the hem.",
                    wing=wing.words,
                    at_inner=Place(inner),
                    at_outer=Place(outer),
                ),
                miter,
            )
        )
        if level[i] < level[j]:
            under = True
            outer, inner = _in_out(cap, wing, apex + normal * CLEARANCE, normal)
            set_wing(ends, wing, outer, inner, setback, cap.sign)
            steps.append(
                step(
                    "cut",
                    message("Cut the {wing} along it.", wing=wing.words),
                    [(outer, v[wing.outer]), (inner, v[wing.inner])],
                )
            )
            continue
        over = True
        lapped, _ = _in_out(cap, wing, apex - normal * LAP, normal)
        corner, inner = _lap_corner(cap, caps[j], wing, apex, normal)
        set_wing(ends, wing, lapped, inner, setback + abs(lapped - outer), cap.sign)
        if corner is not None:
            inside[wing.strip] = [corner]
        cut_line = [
            (lapped, float(v[wing.outer])),
            *([corner] if corner else []),
            (inner, float(v[wing.inner])),
        ]
        steps.append(
            step(
                "cut",
                message(
                    "Cut the {wing} {lap} beyond the miter line, then back along the other cap's "
                    "middle bend to the point.",
                    wing=wing.words,
                    lap=Length(LAP),
                ),
                cut_line,
            )
        )
    close_middle(ends, cap)
    cut = path(section, ends, inside)
    left, right = wings(cap)
    middle = trace(cut, v[left.inner], v[right.inner])
    steps += [
        step(
            "cut",
            message(
                "Cut the hems away back to {at_left} from the low end on the left and "
                "{at_right} on the right, so that the laps lie flat.",
                at_left=Place(ends[0, 0]),
                at_right=Place(ends[-1, 0]),
            ),
            *hem_cuts(cap, ends),
            middle,
        ),
        step("seal", message("Bed the laps in sealant and cover the point.")),
    ]
    lies: Lies | None = "over" if over and not under else "under" if under and not over else None
    return End(kind, cap.at, lies, tuple(dict.fromkeys(others)), Cut(cut), tuple(steps), sealed=True)


def _on_valley(cap: Stand, wing: Wing, apex: Array, valley: Edge, ends: Array) -> Step:
    """Cut one wing where it reaches the middle of a valley, and return the step that says so."""
    along = valley.direction
    square = np.array([along[1], -along[0], 0.0]) / np.hypot(along[0], along[1])
    square = square if square @ cap.away > 0 else -square
    outer, inner = _in_out(cap, wing, apex - square * CLEARANCE, square)
    v = cap.section.v
    setback = HEM_SETBACK + abs((inner - outer) / (v[wing.inner] - v[wing.outer])) * HEM_SETBACK
    set_wing(ends, wing, outer, inner, setback, cap.sign)
    return step(
        "cut",
        message(
            "Cut the {wing} along the middle of the valley: {at_inner} from the low end at the middle bend and "
            "{at_outer} at the bend of the hem.",
            wing=wing.words,
            at_inner=Place(inner),
            at_outer=Place(outer),
        ),
        [(outer, v[wing.outer]), (inner, v[wing.inner])],
    )


def _in_out(cap: Stand, wing: Wing, point: Array, normal: Array) -> tuple[float, float]:
    """Return ``u`` of a plane on the wing's outer line and on its line at the middle bend."""
    first, last = cap.cut(point, normal)[wing.strip]
    return (float(first), float(last)) if wing.left else (float(last), float(first))


def _lap_corner(
    cap: Stand, other: Stand, wing: Wing, apex: Array, normal: Array
) -> tuple[tuple[float, float] | None, float]:
    """Return where the lap meets the other cap's middle bend, and ``u`` of that bend on this wing's inner line."""
    v = cap.section.v
    outer, inner = _in_out(cap, wing, apex - normal * LAP, normal)
    point = cap.on_sheet(wing.strip, apex)
    way = cap.toward(wing.strip, -other.away)
    if abs(way[1]) < POINT:
        return None, inner
    lean = way[0] / way[1]
    back = float(point[0] + (v[wing.inner] - point[1]) * lean) - cap.sign * 2 * CLEARANCE
    slant = (inner - outer) / (v[wing.inner] - v[wing.outer])
    # outer + slant * (w - outer line) = back + lean * (w - inner line)
    if abs(lean - slant) < 1e-9:
        return None, back
    w = (outer - back - slant * v[wing.outer] + lean * v[wing.inner]) / (lean - slant)
    low, high = sorted((float(v[wing.outer]), float(v[wing.inner])))
    if not low < w < high:
        return None, back
    return (float(back + lean * (w - v[wing.inner])), float(w)), back
