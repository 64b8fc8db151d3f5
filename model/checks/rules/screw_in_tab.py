"""A screw stands in a tab or at a cut.

**Finds** a screw whose head reaches a tab, a cut end or the long edge of the piece, or nearer than the
limit.

**Fix** Move the screw onto sound metal.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from ...geometry.arrays import Array
from ...message import Fine, Place, message
from ...scene.draft import Changes
from ...screw_lines import formed_ends
from ...sheet.sheet import Sheet
from ...tolerances import POINT
from ..facts import Facts, PartSpan, and_more
from ..proposals import with_screws
from ..record import Finding, Severity

RULE = "screw-in-tab"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("The metal tears out beside a cut, and a tab that is screwed down cannot close its corner.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece with a screw off sound metal; the worst speaks for it."""
    clear = facts.layout.limits.number(RULE)
    radius = facts.layout.scene.screws.head / 2
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        for span in spans:
            screws = facts.screws[span.mark]
            if not len(screws):
                continue
            away = _to_edge(span.part.sheet, screws + np.array([span.low, 0.0])) - radius
            count = int((away < clear - POINT).sum())
            if not count:
                continue
            worst = int(away.argmin())
            at, distance = float(screws[worst, 0]), float(away[worst])
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                (span,),
                span.low + at,
                and_more(
                    message(
                        "the screw {place} from the low end stands in a tab or too near a cut",
                        place=Place(at),
                    ),
                    count,
                ),
                message("Move it {far} onto sound metal.", far=Fine(clear - distance)),
                measured=distance,
                proposals=_proposals(facts, span),
            )


def _to_edge(sheet: Sheet, points: Array) -> Array:
    """Return how far inside the sheet without its tabs each point lies, inches; negative outside."""
    body = shapely.Polygon(np.concatenate([sheet.low.line, sheet.high.line[::-1]]))
    spots = shapely.points(points)
    distance = shapely.distance(body.exterior, spots)
    return np.asarray(np.where(shapely.contains_xy(body, points), distance, -distance))


def _proposals(facts: Facts, span: PartSpan) -> tuple[Changes, ...]:
    """Return the changes that bring the screws of a piece that are placed by hand as far in as end screws stand."""
    layout = facts.layout
    show, (least, _) = layout.scene.tape, layout.limits.band("end-screw")
    low, high = (u - span.low for u in formed_ends(span.part.sheet))
    first, last = show.up(low + least), show.down(high - least)
    placed = layout.scene.screws.placed.get(span.mark, ())
    return with_screws(layout, span.mark, [min(max(at, first), last) for at in placed])
