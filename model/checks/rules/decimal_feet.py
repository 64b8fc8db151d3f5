"""A length of feet with a decimal may be feet and inches.

**Finds** lengths of a foot or more, in a scene of feet and inches, that are tenths of a foot and on no tape:
``10.6 ft`` is 10' 7 3/16", and more often written for 10' 6". Halves are read as what they are.

**Fix** Write feet and inches: 10' 6". Where tenths of a foot are meant, as a surveyor measures, accept the finding with
the reason.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import as_meant, at_key

RULE = "decimal-feet"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("Six tenths of a foot are more than an inch longer than six inches.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each length that is whole tenths, or eleven hundredths, of a foot."""
    scene = facts.layout.scene
    if scene.unit not in ("in", "ft"):
        return
    for key, inches in facts.lengths:
        feet, tenths = divmod(inches / 1.2, 10)
        eleven = abs(inches / 12 % 1 - 0.11) < 1e-9
        after = 11 if eleven else round(tenths)
        if feet < 1 or after in (0, 5, 10) or not (eleven or abs(tenths - after) < 1e-9):
            continue
        yield at_key(
            facts,
            RULE,
            SEVERITY,
            key,
            message("it is read as decimals of a foot, {length}", length=Length(inches)),
            message(
                "Write {meant} if feet and inches are meant; if not, accept it with the reason.",
                meant=Length(12 * feet + after),
            ),
            measured=inches,
            proposals=as_meant(scene, key, 12 * feet + after),
        )
