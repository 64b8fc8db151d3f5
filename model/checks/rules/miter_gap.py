"""A miter stands open.

**Finds** a corner where the cut edge of the face that lies over is farther from the face it closes onto
than the limit, measured between the folded pieces where they are set, over the height that the two faces
share. At a blunt corner the clearance between the two leaves a longer slot along the face underneath: under a tab
that does not count.

**Fix** Scribe the miter line with the piece set dry, and ease the bend at the mitered end so that the joint
closes.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...geometry.arrays import Array
from ...joints.end import End
from ...layout import Part
from ...message import Fine, message
from ...sheet.fold import strip_fold
from ...tolerances import CLEARANCE
from ..facts import Facts, blunt_slot, cut_edge
from ..proposals import usual_profiles
from ..record import Finding, Severity

RULE = "miter-gap"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("A gaping miter is seen from the ground, and sealant does not bridge it for long.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each open miter."""
    most = facts.layout.limits.number(RULE)
    spans = {span.mark: span for own in facts.spans.values() for span in own}
    for span in spans.values():
        part = span.part
        for end in part.ends:
            if end.miter is None:
                continue
            for other in end.others:
                if other not in spans:
                    continue
                gap, point = _gap(part, end, spans[other].part)
                if gap > most:
                    yield facts.found(
                        RULE,
                        SEVERITY,
                        part.run,
                        (span, spans[other]),
                        end.outermost,
                        message(
                            "the miter of the corner ({joint}) stands {gap} open",
                            joint=end.kind.words,
                            gap=Fine(gap),
                        ),
                        message("Scribe it with the piece set dry, and ease the bend at the mitered end."),
                        measured=gap,
                        proposals=usual_profiles((part.run, spans[other].part.run), facts.layout.scene),
                        point=point,
                    )


def _gap(over: Part, end: End, under: Part) -> tuple[float, Array]:
    """Return how far the cut edge of ``over``'s face stands off ``under``'s face, and where, scene frame.

    The gap is 0 where the two faces share no height, and where cuts are eased off the bends at their ends.
    """
    mine, theirs = over.run.section.strip_of("face"), under.run.section.strip_of("face")
    edge = cut_edge(over, end, mine)
    fold, normal = strip_fold(under.run.section, theirs)
    local = (edge - under.placement[:3, 3]) @ np.linalg.inv(under.placement[:3, :3]).T - fold[:, 2]
    u, v = local @ fold[:, 0], local @ fold[:, 1]
    lines = under.run.section.v[theirs : theirs + 2]
    low, high = (np.interp(v, cut[:, 1], cut[:, 0]) for cut in (under.sheet.low.line, under.sheet.high.line))
    beyond = np.maximum(np.maximum(low - u, u - high), 0.0)
    thickness = (over.run.section.thickness + under.run.section.thickness) / 2
    beyond = np.maximum(beyond - blunt_slot(over, under), 0.0)
    gap = np.maximum(np.hypot(beyond, local @ normal) - thickness, 0.0)
    margin = 2 * (thickness + CLEARANCE)
    gap = np.where((v > lines[0] + margin) & (v < lines[1] - margin), gap, 0.0)
    worst = int(gap.argmax())
    return float(gap[worst]), edge[worst]
