"""The report: a layout as plain values. Lengths and points in inches, angles in degrees.

What each key means is said in ``docs/report.schema.json``.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import why
from trimwright.model.checks.terms import terms_of
from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.limits.record import Limit
from trimwright.model.panels.cleats import Cleat
from trimwright.model.panels.closures import Closure
from trimwright.model.panels.record import Panel
from trimwright.model.panels.sealed import Sealed
from trimwright.model.panels.steps import panel_steps
from trimwright.model.panels.venting import Vent
from trimwright.model.roof.record import Edge, Face, Roof
from trimwright.model.runs import Run
from trimwright.model.steps import Step
from trimwright.model.takeoff.count import take_off
from trimwright.model.takeoff.record import Takeoff

from ..report.terms import UNCHECKED
from ..words.speaker import Speaker, speaker_of
from .flat_pattern import flat_of, flat_of_sheet
from .plain_values import DIGITS, plain
from .stock import stock_of
from .surveyed import sure_of, survey_of

Values = dict[str, Any]

_NUMBERS = re.compile(r"\[\n[-\d.eE,\s]+\]")
"""A list of nothing but numbers: it is written on one line."""


def report_of(layout: Layout, findings: Sequence[Finding], takeoff: Takeoff | None = None) -> Values:
    """Return everything that a layout says, in a stable order, as plain values.

    Args:
        layout: The layout.
        findings: What is wrong with it.
        takeoff: What to buy for it; worked out when left out.

    Raises:
        SceneError: A price is missing, or there is too little stock for a piece.
    """
    if takeoff is None:
        takeoff = take_off(layout, layout.scene.buy)
    say = speaker_of(layout.scene)
    report: Values = plain(
        {
            "title": layout.scene.title,
            "roof": _roof(layout.roof),
            "survey": survey_of(layout.survey, layout.roof),
            "runs": [_run(run, layout) for run in layout.runs],
            "pieces": pieces_of(layout),
            "screws": [
                {"piece": screw.mark, "at": screw.at, "point": screw.point} for screw in layout.screws
            ],
            "findings": [_finding(finding, say) for finding in findings],
            "panels": [_panel(panel, layout.roof, say) for panel in layout.panels],
            "closures": [_closure(closure) for closure in layout.closures],
            "cleats": [_cleat(cleat) for cleat in layout.cleats],
            "sealed": [_sealed(one, layout.roof) for one in layout.sealed],
            "vents": [_vent(vent) for vent in layout.vents],
            "order": [{"name": setting.name, "over": setting.over} for setting in layout.order],
            "takeoff": stock_of(takeoff),
            "rules": _rules(layout, findings, say),
            "limits": [_limit(limit, say) for limit in layout.limits.by_rule.values()],
        }
    )
    return report


def _run(run: Run, layout: Layout) -> Values:
    return {
        "name": run.name,
        "edge": run.edge.name,
        "trim": run.trim,
        "hand": run.hand,
        "length": run.length,
        "pieces": [part.mark for part in layout.parts_of(run.name)],
    }


def _closure(closure: Closure) -> Values:
    return {
        "name": closure.name,
        "at": closure.at,
        "kind": closure.kind,
        "length": closure.length,
        "free_area": closure.free_area,
        "flat": flat_of_sheet(closure.sheet),
    }


def _cleat(cleat: Cleat) -> Values:
    return {
        "name": cleat.mark,
        "at": cleat.at,
        "length": cleat.length,
        "laps": [
            {"at": end.at, "lies": end.lies, "other": other, "length": end.lap}
            for end in cleat.laps
            for other in end.others
        ],
        "screws": cleat.screws,
        "flat": flat_of_sheet(cleat.sheet),
    }


def _sealed(one: Sealed, roof: Roof) -> Values:
    return {
        "place": one.place,
        "at": one.at,
        "face": roof.faces[one.face].name,
        "from": one.along[0],
        "to": one.along[1],
        "bead": one.bead,
    }


def _vent(vent: Vent) -> Values:
    return {
        "at": vent.at,
        "kind": vent.kind,
        "length": vent.length,
        "holes": vent.holes,
        "over_ends": vent.over_ends,
        "free": vent.free,
        "per_foot": vent.per_foot,
    }


def _limit(limit: Limit, say: Speaker) -> Values:
    return {
        "rule": limit.rule,
        "value": limit.value,
        "unit": limit.unit,
        **_origin(limit, say),
    }


def _origin(limit: Limit, say: Speaker) -> Values:
    """Return where a limit comes from; of one that the scene sets, why, and what it departs from."""
    instead = limit.instead_of
    return {
        "source": say(limit.source.whole),
        "trust": limit.source.trust,
        "reason": limit.reason,
        "instead_of": None
        if instead is None
        else {
            "value": instead.value,
            "source": say(instead.source.whole),
            "trust": instead.source.trust,
        },
    }


def _rules(layout: Layout, findings: Sequence[Finding], say: Speaker) -> Values:
    """Return the terms by which the findings were found."""
    terms = terms_of(layout, findings)
    return {
        "set": terms.rule_set,
        "overridden": [limit.rule for limit in terms.overridden],
        "off": [{"rule": rule, "reason": reason} for rule, reason in terms.off.items()],
        "accepted": [
            {
                "rule": one.asked.rule,
                "where": one.asked.where,
                "reason": one.asked.reason,
                "findings": len(one.findings),
            }
            for one in terms.acceptances
        ],
        "not_checked": [say(UNCHECKED)],
        "bare": terms.bare,
        "sealed": terms.sealed,
    }


def pieces_of(layout: Layout, digits: int = DIGITS) -> list[Values]:
    """Return what a report says of every piece, as plain values with so many decimals."""
    say = speaker_of(layout.scene)
    pieces: list[Values] = plain([_piece(part, layout, say) for part in layout.parts], digits)
    return pieces


def written(report: Mapping[str, Any]) -> str:
    """Return a report as the text of a JSON file."""
    text = json.dumps(report, indent=1, ensure_ascii=False, allow_nan=False)
    return _NUMBERS.sub(lambda match: " ".join(match[0].split()), text) + "\n"


def _roof(roof: Roof) -> Values:
    return {
        "faces": [_face(face) for face in roof.faces],
        "edges": [_edge(edge, roof) for edge in roof.edges],
    }


def _face(face: Face) -> Values:
    return {
        "name": face.name,
        "area": face.area,
        "slope": math.degrees(face.slope),
        "azimuth": math.degrees(face.azimuth),
        "outline": face.outline,
    }


def _edge(edge: Edge, roof: Roof) -> Values:
    return {
        "name": edge.name,
        "kind": edge.kind,
        "length": edge.length,
        "slope": math.degrees(edge.slope),
        "dihedral": math.degrees(edge.dihedral),
        "start": edge.start,
        "end": edge.end,
        "faces": [roof.faces[index].name for index in edge.faces],
    }


def _piece(part: Part, layout: Layout, say: Speaker) -> Values:
    return {
        "name": part.mark,
        "run": part.run.name,
        "profile": part.run.section.profile,
        "hand": part.piece.hand or part.run.hand,
        "from": part.low,
        "to": part.high,
        "length": part.length,
        "sure": sure_of(layout.sureness, part.mark),
        "stock": part.piece.stock,
        "thickness": part.run.section.thickness,
        "flat": flat_of(part),
        "screws": sorted(screw.at for screw in layout.screws_of(part.mark)),
        "laps": [_lap(end, part, say) for end in part.ends.laps],
        "joints": [_joint(end, part, say) for end in part.ends.corners],
    }


def _lap(end: End, part: Part, say: Speaker) -> Values:
    return {
        "at": end.at,
        "lies": end.lies,
        "with": end.others[0],
        "length": end.lap,
        "steps": [_step(step, part.low, say) for step in end.steps],
    }


def _joint(end: End, part: Part, say: Speaker) -> Values:
    return {
        "kind": end.kind.name,
        "at": end.at,
        "lies": end.lies,
        "with": end.others,
        "steps": [_step(step, part.low, say) for step in end.steps],
    }


def _step(step: Step, low: float, say: Speaker) -> Values:
    return {
        "verb": step.verb,
        "text": say(step.says),
        "lengths": step.lengths,
        "lines": [[(u - low, v) for u, v in line] for line in step.lines],
    }


def _finding(finding: Finding, say: Speaker) -> Values:
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "where": finding.where,
        "message": say(finding.message),
        "pieces": finding.pieces,
        "point": finding.point,
        "measured": finding.measured,
        "limit": finding.limit.value,
        "unit": finding.limit.unit,
        **_origin(finding.limit, say),
        "why": say(why(finding)),
        "remedy": say(finding.remedy),
        "change": None
        if finding.change is None
        else [{"key": list(change.key), "value": change.value} for change in finding.change],
        "accepted": finding.accepted,
        "group": finding.group,
        "cause": finding.cause,
    }


def _panel(panel: Panel, roof: Roof, say: Speaker) -> Values:
    low = panel.sheet.extent[0]
    return {
        "name": panel.name,
        "face": roof.faces[panel.face].name,
        "length": panel.length,
        "width": panel.cover,
        "outline": panel.outline,
        "seams": [np.asarray(seam) for seam in panel.seams],
        "blank": {"width": panel.width, "length": panel.length},
        "cover": panel.cover,
        "ripped": panel.ripped,
        "edges": panel.edges,
        "ends": [
            {"at": end.at, "made": end.ending, "angle": math.degrees(end.bevel), "edge": end.border}
            for end in panel.ends
        ],
        "flat": flat_of_sheet(panel.sheet),
        "steps": [_step(step, low, say) for step in panel_steps(panel)],
        "clips": panel.clips,
    }
