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
from .solids import Clash, clashes

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
    trim = [(part.mark, part.run.name, part.solid) for part in layout.parts]
    faces = layout.roof.faces
    ours = [(panel.name, faces[panel.face].name, panel.solid) for panel in layout.panels]
    ours += [(closure.name, faces[closure.face].name, closure.solid) for closure in layout.closures]
    ours += [(cleat.mark, cleat.at, cleat.solid) for cleat in layout.cleats]
    everything = [*trim, *ours]
    worst: dict[str, list[Clash]] = {}
    for clash in clashes([solid for _, _, solid in everything], most):
        if clash.second >= len(trim):
            worst.setdefault(everything[clash.second][1], []).append(clash)
    for found in worst.values():
        clash = max(found, key=lambda one: one.depth)
        first, second = everything[clash.first], everything[clash.second]
        problem = message("it runs {depth} into {other}", depth=Fine(clash.depth), other=first[0])
        yield Finding(
            RULE,
            SEVERITY,
            second[0],
            at_place(second[0], and_more(problem, len(found))),
            (first[0],) if clash.first < len(trim) else (),
            clash.point,
            clash.depth / thickness,
            facts.limit(RULE),
            message("Choose other trim, another first seam or another panel profile."),
            proposals=(*seams_elsewhere(layout)[:2], *lower_seams(layout)),
        )
