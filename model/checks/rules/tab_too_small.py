"""A corner's tab is missing or too small.

**Finds** the end of a piece whose face is mitered onto another one's (a rake on the eave trim, two eaves at
an outside corner, the high side on a rake) without a tab folded round the corner, or with one narrower than
the limit.

**Fix** Cut the rake's face beyond the miter line by the width of the tab.

**Source** Common practice, no source: 3/8 in.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, Message, Value, message
from ...tolerances import TAPE
from ..facts import Facts
from ..proposals import for_run
from ..record import Finding, Severity

RULE = "tab-too-small"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Without its tab only sealant closes the corner, which the wind works at.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each corner without a good tab."""
    least, scene = facts.layout.limits.number(RULE), facts.layout.scene
    for name, spans in facts.spans.items():
        for span in spans:
            for end in span.part.ends:
                if not end.kind.tabbed or end.lies != "over":
                    continue
                width = end.tab.width if end.tab is not None else 0.0
                if width >= least - TAPE:
                    continue
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (span,),
                    end.outermost,
                    _too_small(end.kind.words, width, least),
                    message("Cut the face {least} beyond the miter line.", least=Length(least)),
                    measured=width,
                    proposals=for_run(facts.runs[name], scene, "tab", scene.tape.typed(scene.tape.up(least))),
                )


def _too_small(joint: Value, width: float, least: float) -> Message:
    """Return that a corner's tab is too narrow, or missing."""
    if not width:
        return message("the tab that closes the corner ({joint}) is missing", joint=joint)
    return message(
        "the tab that closes the corner ({joint}) is {width} wide, less than {least}",
        joint=joint,
        width=Length(width),
        least=Length(least),
    )
