"""Trim meets trim in a way that no joint is made for.

**Finds** a corner whose pieces are cut clear of each other and closed by sealant alone, because the program has no
joint for the edges that meet there.

**Fix** Bend a patch of the same metal over the corner on the roof, lapped onto each piece and bedded in sealant, or
accept the finding with the reason.

**Source** Common practice, no source: every corner is lapped or tabbed, and sealant only helps.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...joints import sealed_end
from ...joints.end import At
from ...layout import Layout, Part
from ...message import Length, Listed, Message, Value, message
from ..facts import Facts
from ..record import Finding, Severity

RULE = "corner-without-joint"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Sealant ages and opens; without a lap or a tab under it, water then runs in at the corner.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each corner at which ends are closed by sealant alone."""
    spans_by_mark = {span.mark: span for spans in facts.spans.values() for span in spans}
    for vertex, ends in sealed_corners(facts.layout).items():
        spans = tuple(spans_by_mark[part.mark] for part, _ in ends)
        run, u = spans[0].part.run, 0.0 if ends[0][1] == "low" else spans[0].part.run.length
        names = tuple(dict.fromkeys(span.part.run.words for span in spans))
        yield facts.found(
            RULE,
            SEVERITY,
            run,
            spans,
            u,
            _sealed(names),
            message(
                "Bend a patch of the same metal over the corner on the roof, {lap} onto each piece and bedded in "
                "sealant, or accept the finding with the reason.",
                lap=Length(facts.layout.limits.number("lap-too-short")),
            ),
            measured=float(len(spans)),
            point=facts.layout.roof.vertices[vertex],
        )


def _sealed(names: tuple[Value, ...]) -> Message:
    """Return what is wrong at the end of one run, or where several meet."""
    if len(names) == 1:
        return message(
            "no joint is made at this end of the {run}; it is closed by sealant alone", run=names[0]
        )
    return message(
        "no joint is made where the {runs} meet; their ends are closed by sealant alone", runs=Listed(names)
    )


def sealed_corners(layout: Layout) -> dict[int, list[tuple[Part, At]]]:
    """Return, by vertex of the roof, the pieces whose ends are closed there by sealant alone, and which end it is."""
    met: dict[int, list[tuple[Part, At]]] = {}
    for run in layout.runs:
        parts = layout.parts_of(run.name)
        for part, end, vertex in zip(
            (parts[0], parts[-1]), (parts[0].ends.low, parts[-1].ends.high), run.edge.vertices, strict=True
        ):
            if end.kind is sealed_end.KIND:
                met.setdefault(vertex, []).append((part, end.at))
    return met
