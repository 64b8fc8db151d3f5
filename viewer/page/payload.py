"""What the viewer is handed: the shapes of the bodies, and everything that is written or chosen as plain values."""

from __future__ import annotations

import base64
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from trimwright.model.checks.facts import ALL_TRIM
from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import why
from trimwright.model.layout import Layout
from trimwright.model.limits.record import Limit
from trimwright.model.message import Message, message
from trimwright.model.takeoff.count import take_off
from trimwright.model.takeoff.record import Takeoff
from trimwright.model.units import Tape

from ..display.body import Body
from ..display.cladding import panel_beside
from ..display.color_math import hexed
from ..display.colors import LAYERS, SHORT
from ..display.screw_heads import foot_of_head
from ..display.setting_steps import lifts_of, steps_of
from ..display.stage import Stage, stage_of
from ..display.trim_looks import LOOKS
from ..display.view import CAUTION, PANELS
from ..report.changes import change_told
from ..report.terms import told_first
from ..report.words import TRUST, amount, limit_words, reason_of
from ..words.speaker import Speaker, speaker_of
from .finish import look_of
from .pieces import cards_of, pieces_of
from .shapes import METERS, Shapes, claddings_of, shapes_of, to_meters, turned
from .viewpoints import close_viewpoints, label_of, whole_viewpoints

Values = dict[str, Any]

DRAWN = 0.4
"""How high heads of screws are drawn, as a share of their width: higher than they are, to be seen from far off."""

CAUTIONS = (
    message("Protect against falls, above all at the eaves and at the peak."),
    message("Keep ladders footed, tied and well clear of power lines."),
    message("Cut edges are sharp: wear gloves and eye protection."),
    message(
        "Wind and structural figures are advice: the local code, the metal's maker and licensed practice decide."
    ),
)
"""What is cautioned against on a sheet of its own."""


def payload_of(layout: Layout, findings: Sequence[Finding]) -> Values:
    """Return all that the viewer shows of a layout and its findings: what is seen and what is told of it, in one."""
    stage = stage_of(layout, findings)
    seen, told = seen_of(stage), told_of(stage, findings, take_off(layout, layout.scene.buy))
    return {
        **seen,
        "pieces": [{**piece, **card} for piece, card in zip(seen["pieces"], told["cards"], strict=True)],
        "views": [*seen["views"], *told["close"]],
        "findings": told["findings"],
        "terms": told["terms"],
    }


def told_of(stage: Stage, findings: Sequence[Finding], takeoff: Takeoff) -> Values:
    """Return what is read rather than seen at once: the cards, the findings, and the views close to the roof.

    Args:
        stage: What is seen.
        findings: What is wrong with its layout.
        takeoff: What to buy for it.
    """
    say = speaker_of(stage.scene)
    return {
        "cards": cards_of(stage.layout, (trim.plan for trim in takeoff.trim), say),
        "findings": [_finding(number, finding, say) for number, finding in enumerate(findings, 1)],
        "terms": [say(term) for term in told_first(stage.layout, findings, say.tape)],
        "close": close_viewpoints(stage, say),
    }


def seen_of(stage: Stage) -> Values:
    """Return what is seen of a stage; points and directions in meters, y up."""
    layout = stage.layout
    face_of = {panel.name: layout.roof.faces[panel.face].name for panel in layout.panels}
    beside = panel_beside(layout)
    named = {name: face_of[panel] for name, panel in beside.items()}
    claddings = claddings_of(stage.bodies, face_of, beside)
    bodies = [body for body in stage.bodies if body.kind not in PANELS] + [one.body for one in claddings]
    shapes = shapes_of(bodies)
    steps = steps_of(layout)
    place = {named.get(name, name): step.number for step in steps for name in step.names}
    say = speaker_of(layout.scene)
    show = say.tape
    values: Values = {
        "title": layout.scene.title,
        "tape": {"style": show.style, "denominator": show.denominator},
        "shapes": {
            name: base64.b64encode(getattr(shapes, name)).decode("ascii")
            for name in ("points", "side", "faces", "lines")
        }
        | {"index": shapes.faces.itemsize},
        "bodies": _bodies(bodies, shapes, place, layout, {one.body.name: one.panels for one in claddings}),
        "pieces": pieces_of(layout, place, say),
        "panels": {
            panel.name: {
                "face": face_of[panel.name],
                "length": show(panel.length),
                "width": show(panel.cover),
            }
            for panel in layout.panels
        },
        "holes": next((np.multiply(one.holes, METERS).tolist() for one in stage.bodies if one.holes), [0, 0]),
        "panelsShown": layout.scene.panels.show,
        "screws": _screws(layout),
        "steps": [
            {
                "names": sorted({named.get(name, name) for name in step.names}),
                "title": say(step.title),
                "says": say(step.says),
            }
            for step in steps
        ],
        "labels": [label_of(label, say) for label in stage.labels],
        "views": whole_viewpoints(stage, say),
        **look_of(layout.scene, say),
        "apart": _apart(),
        "cautions": [say(caution) for caution in CAUTIONS],
        "caution": say(CAUTION),
    }
    return values


def _bodies(
    bodies: Sequence[Body],
    shapes: Shapes,
    place: Mapping[str, int],
    layout: Layout,
    panels: Mapping[str, Sequence[tuple[str, int]]],
) -> list[Values]:
    """Return what each body is, the size of its shape, the step that sets it, and the way it is lifted."""
    lifts = lifts_of(layout)
    result = []
    for body, counts in zip(bodies, shapes.counts.tolist(), strict=True):
        values: Values = {"kind": body.kind, "name": body.name, "step": 0, "counts": counts}
        if body.kind in ("trim", "pan"):
            lift = [round(float(one), 4) for one in turned(lifts[body.name])]
            values |= {"step": place[body.name], "lift": lift}
        if body.kind == "pan":
            values["panels"] = panels[body.name]
        result.append(values)
    return result


def _screws(layout: Layout) -> Values:
    """Return every screw's head: its point and the way it faces, six numbers each, and its piece's place."""
    index = {part.mark: place for place, part in enumerate(layout.parts)}
    if not layout.screws:
        return {"head": 0.0, "high": 0.0, "heads": [], "piece": []}
    head = layout.scene.screws.head
    points = to_meters(np.array([foot_of_head(screw, head * DRAWN) for screw in layout.screws]))
    normals = turned(np.array([screw.normal for screw in layout.screws]))
    heads = np.round(np.concatenate([points, normals], axis=1), 4)
    return {
        "head": head * METERS,
        "high": head * DRAWN * METERS,
        "heads": heads.ravel().tolist(),
        "piece": [index[screw.mark] for screw in layout.screws],
    }


def _published(limit: Limit, show: Tape) -> Message:
    """Return what a rule set asks for where the scene overrides it, and where that comes from."""
    return message("{limit}, {source}", limit=limit_words(limit, show), source=limit.source.whole)


def _finding(number: int, finding: Finding, say: Speaker) -> Values:
    """Return a finding as it is read out: what was measured, the limit, where it comes from, what to do."""
    limit, show = finding.limit, say.tape
    return {
        "number": number,
        "rule": finding.rule,
        "severity": finding.severity,
        "where": say("all trim") if finding.where == ALL_TRIM else finding.where,
        "message": say(finding.message),
        "pieces": list(finding.pieces),
        "point": [round(float(one), 5) for one in to_meters(finding.point)],
        "measured": None if finding.measured is None else say(amount(finding.measured, limit.unit, show)),
        "limit": say(limit_words(limit, show)),
        "source": say(limit.source.whole),
        "trust": say(TRUST[limit.source.trust]),
        "reason": None if limit.instead_of is None else say(message("{reason}", reason=reason_of(limit))),
        "insteadOf": None if limit.instead_of is None else say(_published(limit.instead_of, show)),
        "why": say(why(finding)),
        "remedy": say(finding.remedy),
        "change": [say(change_told(change)) for change in finding.change or ()],
        "accepted": finding.accepted,
        "group": finding.group,
        "cause": finding.cause,
    }


def _apart() -> Values:
    """Return the colors that tell pieces apart: two tones a kind of trim; those of layers cut through."""
    return {
        "kinds": {kind: [hexed(tone) for tone in look.tones] for kind, look in LOOKS.items()},
        "short": hexed(SHORT),
        "layers": [hexed(color) for color in LAYERS],
    }
