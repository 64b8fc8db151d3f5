"""The metal is too thin for flashing.

**Finds** metal thinner than the limit. The sheet as it is delivered counts, zinc included, paint not: the codes' limit
is that of No. 26 galvanized sheet, which gauge tables give as 0.0217 in with its zinc and 0.0179 in as bare steel.

**Fix** Order thicker metal. A gauge number alone is ambiguous: ask for the thickness.

**Source** IBC 1503.2 and IRC R903.2.1; that these name No. 26 galvanized sheet is from memory. Thicknesses of No. 26:
sheet-metal gauge tables.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...message import Fine, Message, message
from ...metals import METALS
from ...scene.draft import Change
from ...scene.schema import Scene
from ..facts import ALL_TRIM, Facts, at_place, point_on
from ..record import Finding, Severity

RULE = "thin-metal"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Thin metal waves, dents and tears at its screws.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield one finding when the scene's metal is too thin."""
    least = facts.layout.limits.number(RULE)
    thickness = facts.layout.scene.metal.thickness
    if thickness >= least - 1e-9 or not facts.layout.runs:
        return
    yield Finding(
        RULE,
        SEVERITY,
        ALL_TRIM,
        at_place(
            message("all trim"),
            message(
                "the metal is {thickness} thick, less than {least}",
                thickness=Fine(thickness),
                least=Fine(least),
            ),
        ),
        tuple(part.mark for part in facts.layout.parts),
        point_on(facts.layout.runs[0], 0.0),
        thickness,
        facts.limit(RULE),
        _remedy(facts.layout.scene.metal.kind, least),
        proposals=((Change(("metal", "thickness"), _thick_enough(facts.layout.scene, least)),),),
    )


def _remedy(kind: str, least: float) -> Message:
    """Return what to order; of galvanized steel also which of its two thicknesses to give."""
    if kind == "galvanized":
        return message(
            "Order metal of {least} or more. The sheet counts with its zinc: if this is the thickness of the bare "
            "steel, give the coated one.",
            least=Fine(least),
        )
    return message("Order metal of {least} or more.", least=Fine(least))


def _thick_enough(scene: Scene, least: float) -> str:
    """Return the thinnest sheet by label that is thick enough, as a scene gives it; else its thickness."""
    labels = {label: thick for label, thick in METALS[scene.metal.kind].labels.items() if thick >= least}
    if labels:
        return min(labels, key=lambda label: labels[label])
    if scene.show == "feet":
        return f"{math.ceil(least * 1000 - 1e-6) / 1000:.3f} in"
    return f"{math.ceil(least * 2540 - 1e-6) / 100:.2f} mm"
