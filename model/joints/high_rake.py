"""High-rake corner of a shed: the high-side trim closes over the top of the rake.

The rake's face is cut plumb under the high edge of the deck. The high-side trim runs on past the rake's hook
lip; its top leg's end is turned down over the lip and its face's end is folded back round the corner inside it.

Source: common practice, no source.
"""

from __future__ import annotations

import numpy as np

from ..message import Length, Place, message
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..tolerances import CLEARANCE
from .cap import END_OVERHANG, HEM_SETBACK, MARGIN, reach_past
from .end import End, JointKind, step, trace
from .flap import flap
from .meeting import Meeting, Met, either_end, high_end
from .stand import Stand

KIND = JointKind("high-rake", message("high-rake"), tabbed=True, aloft=True)
MEETING = Meeting(("high", "rake"), (high_end("rake"), either_end("high")))
COVER = 0.75
"""How far the turned-down end hangs below the panels, over the rake's hook lip, inches."""


def fit(met: Met) -> tuple[End, End]:
    """Cut the rake's high end, and the high-side trim's end that closes over it with a strip of its face."""
    rake, top = met.ends
    return _rake(top, rake), _high(top, rake, top.run.spec.tab)


def _rake(high: Stand, rake: Stand) -> End:
    section = rake.section
    face, top = section.strip_of("face"), section.strip_of("top")
    plumb = rake.cut(rake.corner - high.outward * CLEARANCE, high.outward)
    ends = np.full_like(plumb, float(plumb[:face].min()))
    ends[face] = plumb[face]
    ends[face + 1 :] = float(plumb[face:].min())
    cut = path(section, ends)
    v = section.v
    at, bottom = float(ends[top, 0]), float(ends[face, 1])
    steps = (
        step(
            "mark",
            message(
                "Scribe the plumb line of the high edge on the face: {at_top} from the low end "
                "at the {bend}, {at_bottom} at the bend of the {drip}.",
                bend=rake.upper_bend,
                drip=rake.drip,
                at_top=Place(ends[face, 0]),
                at_bottom=Place(bottom),
            ),
            [(ends[face, 0], v[face]), (bottom, v[face + 1])],
        ),
        step(
            "cut",
            message(
                "Cut the top leg and all above the face right across, {at_edge} from the low end.",
                at_edge=Place(at),
            ),
            trace(cut, 0.0, v[face]),
        ),
        step(
            "cut",
            message("Cut the face along the plumb line, the {drip} square across.", drip=rake.drip),
            trace(cut, v[face], v[-1]),
        ),
        step("set", message("Set it before the high-side trim, which closes over it.")),
    )
    return End(KIND, rake.at, "under", (high.run.name,), Cut(cut), steps)


def _high(high: Stand, rake: Stand, width: float) -> End:
    section = high.section
    top, face = section.strip_of("top"), section.strip_of("face")
    v = section.v
    over = reach_past(high, (rake,), rake.outward) + END_OVERHANG
    ends = high.cut(high.corner + rake.outward * over, rake.outward)
    at = float(ends[top, 0])
    inner = at - high.sign * (2 * high.thickness)
    ends = square_cut(section, inner)
    ends[top] = at
    for hem in range(top):
        ends[hem] = at - high.sign * HEM_SETBACK
    _, normal = high.plane(top)
    lift = float(section.points[top] @ section.normals[top]) - high.thickness / 2
    depth = lift / normal[2] + COVER
    down = np.array([0.0, 0.0, -1.0])
    hinge = np.array([[at, v[top] + MARGIN], [at, v[top + 1] - MARGIN]])
    strip: Tab | None = None
    tabs: list[Tab] = [flap(high, top, hinge, depth, down, ("plumb", "plumb"))]
    steps = [
        step(
            "mark",
            message(
                "Mark the fold line across the top leg, {at_fold} from the low end, and the end"
                " {depth} beyond it.",
                at_fold=Place(at),
                depth=Length(depth),
            ),
            hinge,
        ),
        step(
            "cut",
            message(
                "Cut the top leg at the end, taper the flap plumb at the face, and free the hem {hem} back.",
                hem=Length(HEM_SETBACK),
            ),
            [
                (at, v[top]),
                tabs[0].hinge[0],
                tabs[0].flap[1],
                tabs[0].flap[0],
                tabs[0].hinge[1],
                (at, v[top + 1]),
                (inner, v[top + 1]),
            ],
            [(at - high.sign * HEM_SETBACK, 0.0), (at - high.sign * HEM_SETBACK, v[top]), (at, v[top])],
        ),
    ]
    inside = {top: [(float(u), float(w)) for u, w in hinge]}
    if width > 0:
        back = np.array([[inner, v[face] + MARGIN], [inner, v[face + 1] - MARGIN]])
        strip = flap(high, face, back, width, -high.outward, (0.5, 0.5))
        tabs.append(strip)
        inside[face] = [(float(u), float(w)) for u, w in back]
        steps += [
            step(
                "cut",
                message(
                    "Cut the face {tab} beyond its own fold line, {at_inner} from the low end, and "
                    "the {drip} at it.",
                    drip=high.drip,
                    tab=Length(width),
                    at_inner=Place(inner),
                ),
                [
                    (inner, v[top + 1]),
                    (inner, v[face]),
                    strip.hinge[0],
                    strip.flap[1],
                    strip.flap[0],
                    strip.hinge[1],
                    (inner, v[face + 1]),
                ],
                [(inner, section.width), (inner, v[face + 1])],
            ),
            step("fold", message("Fold the face's strip back round the corner."), back),
        ]
    else:
        steps.append(
            step(
                "cut",
                message(
                    "Cut the face and the {drip} square across, {at_inner} from the low end.",
                    drip=high.drip,
                    at_inner=Place(inner),
                ),
                [(inner, section.width), (inner, v[top + 1])],
            )
        )
    steps += [
        step(
            "fold", message("Turn the top leg's end down over the rake's hook lip, outside the strip."), hinge
        ),
        step("seal", message("Set the end on closures bedded in sealant.")),
    ]
    cut = Cut(path(section, ends, inside), tuple(tabs))
    return End(KIND, high.at, "over", (rake.run.name,), cut, tuple(steps), sealed=True, tab=strip)
