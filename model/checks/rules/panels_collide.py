"""A panel or a closure runs into metal beside it.

**Finds** panels, closures and cleats that, where they are set, run into each other or into trim deeper than the
limit.

**Fix** Choose other trim, another first seam or another panel profile.

**Source** The project's own: less than half a sheet is taken up by pressing the metal together.
"""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from ...edge_kinds import KINDS
from ...geometry.arrays import Array
from ...layout import Layout
from ...message import Fine, Listed, Message, counted, message
from ...roof.build import takes_trim
from ...roof.record import Edge
from ...scene.draft import Changes
from ..facts import Facts, and_more, at_place
from ..proposals import given_trim, lower_seams, seams_elsewhere, usual_profiles
from ..record import Finding, Severity
from ..solids import Clash

RULE = "panels-collide"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message(
    "Panels in each other's way will not go together on the roof: one has to be cut or hammered where "
    "nobody planned it."
)
NEAR = 12.0
"""A bare edge so near in plan, inches, is why panels collide: they end there as if nothing were in their way."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face or run, about the deepest of its panels, closures and cleats."""
    layout = facts.layout
    thickness = layout.scene.metal.thickness
    most = facts.layout.limits.number(RULE) * thickness
    faces = layout.roof.faces
    names = [(part.mark, part.run.name) for part in layout.parts]
    names += [(panel.name, faces[panel.face].name) for panel in layout.panels]
    names += [(closure.name, faces[closure.face].name) for closure in layout.closures]
    names += [(cleat.mark, cleat.at) for cleat in layout.cleats]
    trim = len(layout.parts)
    worst: dict[str, list[Clash]] = {}
    for clash in facts.clashes:
        if clash.second >= trim and clash.depth > most:
            worst.setdefault(names[clash.second][1], []).append(clash)
    for found in worst.values():
        clash = max(found, key=lambda one: one.depth)
        first, second = names[clash.first], names[clash.second]
        bare = _bare_at(layout, clash.point)
        hooked = layout.parts[clash.first : clash.first + 1]
        problem = message("it runs {depth} into {other}", depth=Fine(clash.depth), other=first[0])
        yield Finding(
            RULE,
            SEVERITY,
            second[0],
            at_place(second[0], and_more(problem, len(found))),
            (first[0],) if clash.first < trim else (),
            clash.point,
            clash.depth / thickness,
            facts.limit(RULE),
            _remedy(bare),
            proposals=_proposals(layout, clash, bare),
            beside=(*(edge.name for edge in bare), *(part.run.name for part in hooked)),
        )


def _bare_at(layout: Layout, point: Array) -> list[Edge]:
    """Return the edges near a point that trim could be laid out for, and that the scene leaves bare."""
    return [
        edge
        for edge in layout.roof.edges
        if edge.name in layout.untrimmed
        and edge.kind in KINDS
        and shapely.LineString([edge.start, edge.end]).distance(shapely.Point(point[:2])) < NEAR
    ]


def _remedy(bare: list[Edge]) -> Message:
    """Return what to do: beside a bare edge, what is made there comes first."""
    if bare:
        return counted(
            "The {edges} is left bare, and nothing says where panels end beside it: close it as its own finding says, "
            "and cut the panels in place to that.",
            "The {edges} are left bare, and nothing says where panels end beside them: close them as their own finding "
            "says, and cut the panels in place to that.",
            count=len(bare),
            edges=Listed(tuple(edge.words for edge in bare)),
        )
    return message("Choose other trim, another first seam or another panel profile.")


def _proposals(layout: Layout, clash: Clash, bare: list[Edge]) -> tuple[Changes, ...]:
    """Return the ways to get what collides apart: trim on a bare edge, the usual trim, other seams."""
    parts = layout.parts[clash.first : clash.first + 1]
    trimmed = tuple(given_trim(layout.scene, edge) for edge in bare if takes_trim(edge))
    ways = [trimmed] if trimmed else []
    ways += usual_profiles([part.run for part in parts], layout.scene)
    return (*ways, *seams_elsewhere(layout)[:2], *lower_seams(layout))
