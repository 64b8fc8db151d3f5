"""A face sheds its water against a wall.

**Finds** an edge of a face that lies against a wall or a higher roof and toward which the face falls, level or nearly
so.

**Fix** Build a cricket that turns the water to the sides, or a gutter along the wall; trim alone does not do it.

**Source** Geometry: the angle between roof and wall is less than 90 degrees, and no flashing drains uphill. IRC
R903.2.2 and IBC 1503.6 ask for a cricket behind chimneys wider than 30 in (pub2).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...message import Angle, message
from ..facts import Facts, at_place
from ..record import Finding, Severity

RULE = "drains-to-wall"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Water and snow pile up at the foot of the wall, and get in behind any flashing.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each edge at which a face falls to a wall more squarely than is allowed."""
    roof, most = facts.layout.roof, facts.layout.limits.number(RULE)
    for edge in roof.edges:
        if edge.kind != "step":
            continue
        face = roof.faces[edge.faces[0]]
        fall = face.normal[:2] / max(float(np.linalg.norm(face.normal[:2])), 1e-9)
        away = edge.outward[:2] / np.linalg.norm(edge.outward[:2])
        toward = math.degrees(math.asin(min(max(float(fall @ away), -1.0), 1.0)))
        if toward <= most:
            continue
        yield Finding(
            RULE,
            SEVERITY,
            edge.name,
            at_place(
                message("{edge}", edge=edge.words),
                message(
                    "{face} falls toward it, {turn} degrees off the line along the wall",
                    face=face.words,
                    turn=Angle(math.radians(toward)),
                ),
            ),
            (),
            (edge.start + edge.end) / 2,
            toward,
            facts.limit(RULE),
            message("Build a cricket that turns the water to the sides, or a gutter along the wall."),
        )
