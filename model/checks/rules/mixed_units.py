"""One size of the roof is metric among sizes in feet and inches, or the other way round.

**Finds** sizes of the roof that are whole millimeters and on no tape of inches, in a scene of feet and inches whose
other sizes are on one; and sizes in feet and inches in a metric scene. ``32 m`` is a roof of 105 ft, and more often
written for 32 ft.

**Fix** Write the unit that was on the tape. Where two tapes were used, accept the finding with the reason.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Message, Value, message
from ...scene.lengths import is_said
from ...units import is_whole
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import as_meant, at_key, size

RULE = "mixed-units"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("Whoever reads one tape reads it for the whole roof; one size in another unit is often a slip.")

LEAST = 600 / 25.4
"""Shorter sizes are bought by the millimeter beside feet, and by the inch beside meters, inches."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each size in the units of the other tape."""
    scene = facts.layout.scene
    said = [(key, inches) for key, inches in facts.lengths if key[0] == "roof" and is_said(scene, key)]
    is_feet = scene.unit in ("in", "ft")
    own, other = (16, 25.4) if is_feet else (25.4, 16)
    if not any(is_whole(inches * own) for _, inches in said):
        return
    for key, inches in said:
        if inches < LEAST or is_whole(inches * own) or not is_whole(inches * other):
            continue
        meant = inches * 0.3048 if is_feet else inches / 0.3048
        values: dict[str, Value] = {"size": size(inches), "meant": size(meant)}
        yield at_key(
            facts,
            RULE,
            SEVERITY,
            key,
            _told(inches, is_feet, values["size"]),
            message(
                "Write {meant} if that is meant; if {size} is right, accept it with the reason.", **values
            ),
            measured=inches,
            proposals=as_meant(scene, key, meant),
        )


def _told(inches: float, is_feet: bool, read: Value) -> Message:
    """Return what stands there and what is read."""
    if is_feet:
        return message(
            "{meters} m stands among sizes in feet, and is {size}", meters=f"{inches * 0.0254:g}", size=read
        )
    return message("{feet} ft stands among metric sizes, and is {size}", feet=f"{inches / 12:g}", size=read)
