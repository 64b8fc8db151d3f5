"""What the viewer is handed: the shapes of the bodies, and everything that is written or chosen as plain values."""

from __future__ import annotations

import base64
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.metals import METALS
from trimwright.model.takeoff.count import take_off
from trimwright.model.takeoff.record import Takeoff

from ..display.body import Body
from ..display.colors import BARE_METALS, LAYERS, SHORT
from ..display.order import lifts_of, steps_of
from ..display.stage import Stage, stage_of
from ..display.tints import hexed
from ..display.trim_looks import LOOKS
from ..display.view import CAUTION, PANELS
from ..report.words import CAUTIONS, TRUST, amount, limit_words
from ..words.speaker import Speaker, speaker_of
from .pieces import cards_of, pieces_of
from .shapes import METRES, Shapes, claddings_of, shapes_of, to_metres, turned
from .viewpoints import close_places, label_of, whole_places

Values = dict[str, Any]

PAINTS = (
    ("chalk", "#e9e6dc"), ("fog", "#b8bfc1"), ("gull", "#868f93"), ("slate", "#4a555b"), ("tar", "#23282b"),
    ("oak bark", "#54433a"), ("rope", "#a8906a"), ("brick", "#8c3b2e"), ("rowan", "#a52a2a"), ("moss", "#5b6b45"),
    ("pine", "#2d4a3b"), ("harbour", "#2f5673"),
)  # fmt: skip
"""Paints to try, by names of our own."""


def payload_of(layout: Layout, findings: Sequence[Finding]) -> Values:
    """Return all that the viewer shows of a layout and its findings: what is seen and what is told of it, in one."""
    stage = stage_of(layout, findings)
    seen, told = seen_of(stage), told_of(stage, findings, take_off(layout, layout.scene.buy))
    return {
        **seen,
        "pieces": [{**piece, **card} for piece, card in zip(seen["pieces"], told["cards"], strict=True)],
        "views": [*seen["views"], *told["close"]],
        "findings": told["findings"],
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
        "cards": cards_of(stage.layout, (trim.plan for trim in takeoff.trim)),
        "findings": [_finding(number, finding, say) for number, finding in enumerate(findings, 1)],
        "close": close_places(stage),
    }


def seen_of(stage: Stage) -> Values:
    """Return what is seen of a stage; points and directions in metres, y up."""
    layout = stage.layout
    face_of = {panel.name: layout.roof.faces[panel.face].name for panel in layout.panels}
    claddings = claddings_of(stage.bodies, face_of)
    bodies = [body for body in stage.bodies if body.kind not in PANELS] + [one.body for one in claddings]
    shapes = shapes_of(bodies)
    steps = steps_of(layout)
    place = {face_of.get(name, name): step.number for step in steps for name in step.names}
    show = layout.scene.tape
    values: Values = {
        "title": layout.scene.title,
        "tape": {"style": show.style, "denominator": show.denominator},
        "shapes": {
            name: base64.b64encode(getattr(shapes, name)).decode("ascii")
            for name in ("points", "side", "faces", "lines")
        },
        "bodies": _bodies(bodies, shapes, place, layout, {one.body.name: one.panels for one in claddings}),
        "pieces": pieces_of(layout, place),
        "panels": {
            panel.name: {
                "face": face_of[panel.name],
                "length": show(panel.length),
                "width": show(panel.width),
            }
            for panel in layout.panels
        },
        "panelsShown": layout.scene.panels.show,
        "screws": _screws(layout),
        "steps": [
            {
                "names": sorted({face_of.get(name, name) for name in step.names}),
                "title": step.title,
                "says": step.says,
            }
            for step in steps
        ],
        "labels": [label_of(label) for label in stage.labels],
        "views": whole_places(stage),
        "finish": _finish(layout),
        "apart": _apart(),
        "sun": layout.scene.north,
        "cautions": speaker_of(layout.scene)(CAUTIONS),
        "caution": CAUTION,
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
        return {"head": 0.0, "heads": [], "piece": []}
    points = to_metres(np.array([screw.point for screw in layout.screws]))
    normals = turned(np.array([screw.normal for screw in layout.screws]))
    heads = np.round(np.concatenate([points, normals], axis=1), 4)
    return {
        "head": layout.scene.screws.head * METRES,
        "heads": heads.ravel().tolist(),
        "piece": [index[screw.mark] for screw in layout.screws],
    }


def _finding(number: int, finding: Finding, say: Speaker) -> Values:
    """Return a finding as it is read out: what was measured, the limit, where it comes from, what to do."""
    limit, show = finding.limit, say.tape
    return {
        "number": number,
        "rule": finding.rule,
        "severity": finding.severity,
        "where": finding.where,
        "message": say(finding.message),
        "pieces": list(finding.pieces),
        "point": [round(float(one), 5) for one in to_metres(finding.point)],
        "measured": None if finding.measured is None else say(amount(finding.measured, limit.unit, show)),
        "limit": say(limit_words(limit, show)),
        "source": say(limit.source.whole),
        "trust": say(TRUST[limit.source.trust]),
        "reason": limit.reason,
        "remedy": say(finding.remedy),
        "accepted": finding.accepted,
    }


def _finish(layout: Layout) -> Values:
    """Return the colors and metals of the scene, and what else can be tried."""
    colors, kind = layout.scene.colors, layout.scene.metal.kind
    bare = kind in BARE_METALS
    return {
        "trim": colors.trim,
        "panels": colors.panels,
        "walls": colors.walls,
        "trimBare": bare,
        "panelsBare": bare,
        "paints": [{"name": name, "color": color} for name, color in PAINTS],
        "metals": [
            {"name": name, "color": color}
            for metal in METALS.values()
            if metal.kind in BARE_METALS
            for name, color in _ages(metal.kind, metal.color, metal.patina)
        ],
    }


def _apart() -> Values:
    """Return the colors that tell pieces apart: two tones a kind of trim, and those of layers that are cut through."""
    return {
        "kinds": {kind: [hexed(tone) for tone in look.tones] for kind, look in LOOKS.items()},
        "short": hexed(SHORT),
        "layers": [hexed(color) for color in LAYERS],
    }


def _ages(kind: str, color: str, patina: tuple[str, ...]) -> list[tuple[str, str]]:
    """Return the colors of a bare metal, from new to old, each with a name."""
    ages = ("new", "dulled", "old")
    return [(f"{kind}, {age}", one) for age, one in zip(ages, patina, strict=False)] or [(kind, color)]
