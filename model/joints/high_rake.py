"""High-rake corner of a shed: the high-side trim closes over the top of the rake.

The rake's face is cut plumb under the high edge of the deck, what lies above it on a line that leans as that edge
does. The high-side trim runs on past the rake's hook lip; its top leg's end is turned down over the lip, on a fold
along the rake, and its face's end is folded back round the corner inside it.

Source: common practice, no source.
"""

from __future__ import annotations

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Message, Place, message
from ..profiles.section import Section
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE, TAPE
from .cap import END_OVERHANG, HEM_SETBACK, MARGIN, reach_past
from .end import End, JointKind, step, trace
from .flap import flap, hinges, way_round
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
    ends = plumb.copy()
    ends[:face] = on_one_line(section, plumb, range(face))
    ends[face + 1 :] = on_one_line(section, plumb, range(face, section.strips))[1:]
    cut = path(section, ends)
    v = section.v
    bottom = float(ends[face, 1])
    steps = (
        step(
            "mark",
            message(
                "Scribe the plumb line of the high edge on the face: {at_top} from the blank's end "
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
            across(float(ends[top, 0]), float(ends[top, 1]), rake),
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


def on_one_line(section: Section, plumb: Array, strips: range) -> Array:
    """Return where strips are cut on one line across that the plumb plane of the high edge lies nowhere short of.

    The line leans across the piece as the high edge does, which need not be square to the rake.
    """
    top, out = section.strip_of("top"), section.points[:, 0]
    lean = float(plumb[top, 1] - plumb[top, 0]) / float(out[top + 1] - out[top])
    across = lean * np.stack([out[:-1], out[1:]], axis=1)[list(strips)]
    return np.asarray(across + float((plumb[list(strips)] - across).min()))


def across(at_edge: float, at_bend: float, rake: Stand) -> Message:
    """Return how a rake's top leg is cut: right across, or leaning as the high edge does."""
    if abs(at_edge - at_bend) < TAPE:
        return message(
            "Cut the top leg and all above the face right across, {at_edge} from the blank's end.",
            at_edge=Place(at_edge),
        )
    return message(
        "Cut the top leg and all above the face on one line: {at_edge} from the blank's end at the inboard edge, "
        "{at_bend} at the {bend}.",
        at_edge=Place(at_edge),
        at_bend=Place(at_bend),
        bend=rake.upper_bend,
    )


def _high(high: Stand, rake: Stand, width: float) -> End:
    section = high.section
    top = section.strip_of("top")
    over = reach_past(high, (rake,), rake.outward) + END_OVERHANG
    fold = high.cut(high.corner + rake.outward * over, rake.outward)[top]
    inner = float(fold[1]) - high.sign * (2 * high.thickness)
    ends = square_cut(section, inner)
    ends[:top] = fold[0] - high.sign * HEM_SETBACK
    ends[top] = fold
    depth = _hang(high) + COVER
    lid = _lid(high, fold, depth)
    strip = _strip(high, rake, inner, width) if width > 0 else None
    tabs = (lid,) if strip is None else (lid, strip)
    steps = (
        *_lid_cut(high, lid, fold, inner, depth),
        *(_square_face(high, inner) if strip is None else _strip_cut(high, strip, inner, width)),
        step(
            "fold",
            message("Turn the top leg's end down over the rake's hook lip, outside the strip."),
            lid.hinge,
        ),
        step("seal", message("Set the end on closures bedded in sealant.")),
    )
    cut = Cut(path(section, ends, hinges(tabs)), tabs)
    return End(KIND, high.at, "over", (rake.run.name,), cut, steps, sealed=True, tab=strip)


def _hang(high: Stand) -> float:
    """Return how far the top leg's underside stands above the deck, plumb, inches."""
    section, top = high.section, high.section.strip_of("top")
    _, normal = high.plane(top)
    lift = float(section.points[top] @ section.normals[top]) - high.thickness / 2
    return float(lift / normal[2])


def _lid(high: Stand, fold: Array, depth: float) -> Tab:
    """Return the end of the top leg that is turned down over the rake's hook lip, beyond a fold along that."""
    v, top = high.section.v, high.section.strip_of("top")
    at = np.array([v[top] + MARGIN, v[top + 1] - MARGIN])
    hinge = np.column_stack([np.interp(at, v[top : top + 2], fold), at])
    return flap(high, top, hinge, depth, np.array([0.0, 0.0, -1.0]), ("plumb", "plumb"))


def _strip(high: Stand, rake: Stand, inner: float, width: float) -> Tab:
    """Return the end of the face that is folded back round the corner, along the rake."""
    v, face = high.section.v, high.section.strip_of("face")
    hinge = np.array([[inner, v[face] + MARGIN], [inner, v[face + 1] - MARGIN]])
    return flap(high, face, hinge, width, -rake.away * [1.0, 1.0, 0.0], (0.5, 0.5))


def _marked(fold: Array, depth: float) -> Message:
    """Return how the fold of the top leg's end is marked: across the leg, or leaning along the rake."""
    inboard, at_face = (float(u) for u in fold)
    if abs(inboard - at_face) < TAPE:
        return message(
            "Mark the fold line across the top leg, {at_fold} from the blank's end, and the end"
            " {depth} beyond it.",
            at_fold=Place(inboard),
            depth=Length(depth),
        )
    return message(
        "Mark the fold line on the top leg, {at_inboard} from the blank's end at the bend of the hem and {at_face} at "
        "the bend of the face, and the end {depth} beyond it.",
        at_inboard=Place(inboard),
        at_face=Place(at_face),
        depth=Length(depth),
    )


def _lid_cut(high: Stand, lid: Tab, fold: Array, inner: float, depth: float) -> tuple[Step, Step]:
    """Return how the top leg's end is marked and cut."""
    v, top = high.section.v, high.section.strip_of("top")
    inboard, at_face = (float(u) for u in fold)
    hem = inboard - high.sign * HEM_SETBACK
    return (
        step("mark", _marked(fold, depth), lid.hinge),
        step(
            "cut",
            message(
                "Cut the top leg at the end, taper the flap plumb at the face, and free the hem {hem} back.",
                hem=Length(HEM_SETBACK),
            ),
            [(inboard, v[top]), *way_round(lid), (at_face, v[top + 1]), (inner, v[top + 1])],
            [(hem, 0.0), (hem, v[top]), (inboard, v[top])],
        ),
    )


def _strip_cut(high: Stand, strip: Tab, inner: float, width: float) -> tuple[Step, Step]:
    """Return how the face is cut to leave its strip, and the strip folded."""
    section = high.section
    v, top, face = section.v, section.strip_of("top"), section.strip_of("face")
    return (
        step(
            "cut",
            message(
                "Cut the face {tab} beyond its own fold line, {at_inner} from the blank's end, and "
                "the {drip} at it.",
                drip=high.drip,
                tab=Length(width),
                at_inner=Place(inner),
            ),
            [(inner, v[top + 1]), (inner, v[face]), *way_round(strip), (inner, v[face + 1])],
            [(inner, section.width), (inner, v[face + 1])],
        ),
        step("fold", message("Fold the face's strip back round the corner."), strip.hinge),
    )


def _square_face(high: Stand, inner: float) -> tuple[Step]:
    """Return how the face is cut where it has no strip."""
    section = high.section
    cut = message(
        "Cut the face and the {drip} square across, {at_inner} from the blank's end.",
        drip=high.drip,
        at_inner=Place(inner),
    )
    return (step("cut", cut, [(inner, section.width), (inner, section.v[section.strip_of("top") + 1])]),)
