"""Trim meets trim in a way that no joint is made for.

**Finds** a corner whose pieces are cut clear of each other and closed by sealant alone, because the program has no
joint for the edges that meet there.

**Matters because** sealant ages and opens; without a lap or a tab under it, water then runs in at the corner.

**Fix** Make the corner by hand on the roof, with a tab or a piece lapped under, or accept the finding with the reason.

**Source** Common practice, no source: every corner is lapped or tabbed, and sealant only helps.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..joints import sealed_end
from ..message import Listed, message
from .facts import Facts, Span
from .record import Finding, Severity

RULE = "corner-without-joint"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each corner at which ends are closed by sealant alone."""
    at_vertex: dict[int, list[tuple[Span, float]]] = {}
    for name, spans in facts.spans.items():
        vertices = facts.runs[name].edge.vertices
        for span, end in ((spans[0], spans[0].part.ends.low), (spans[-1], spans[-1].part.ends.high)):
            if end.kind is sealed_end.KIND:
                at = (vertices[0], 0.0) if end.at == "low" else (vertices[1], facts.runs[name].length)
                at_vertex.setdefault(at[0], []).append((span, at[1]))
    for vertex, met in at_vertex.items():
        spans, (run, u) = tuple(span for span, _ in met), (met[0][0].part.run, met[0][1])
        names = tuple(dict.fromkeys(span.part.run.name for span in spans))
        yield facts.found(
            RULE,
            SEVERITY,
            run,
            spans,
            u,
            message(
                "no joint is made where the {runs} meet; their ends are closed by sealant alone",
                runs=Listed(names),
            ),
            message(
                "Make the corner by hand, with a tab or a piece lapped under, or accept the finding with the reason."
            ),
            measured=float(len(spans)),
            point=facts.layout.roof.vertices[vertex],
        )
