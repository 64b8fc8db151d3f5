"""A panel or a closure runs into metal beside it.

**Finds** panels, closures and cleats that, where they are set, run into each other or into trim deeper than the
limit.

**Fix** Choose other trim, another first seam or another panel profile.

**Source** The project's own: less than half a sheet is taken up by pressing the metal together.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Fine, message
from .facts import Facts, and_more, at_place
from .proposals import lower_seams, seams_elsewhere
from .record import Finding, Severity
from .solids import Clash

RULE = "panels-collide"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message(
    "Panels in each other's way will not go together on the roof: one has to be cut or hammered where "
    "nobody planned it."
)


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
            message("Choose other trim, another first seam or another panel profile."),
            proposals=(*seams_elsewhere(layout)[:2], *lower_seams(layout)),
        )
