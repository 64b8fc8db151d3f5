"""Part of an edge has no metal on it.

**Finds** a gap between two pieces of a run, and an end of an edge that its metal does not reach: what lies on the
deck and what turns down over its edge each by itself, tabs left out. A piece reaches an end when it comes to the
plumb line there or to the line square across: a straight cut on a steep roof lies between the two. Where an eave and a
rake go on nearly in line, the clearance between them leaves a longer slot: under a tab that does not count. Caps reach
it when they meet, which on slopes that differ is beside the corner of the deck; where they meet about a hip or ridge
too short for a cap, the patch over it covers what they leave. What lies on the deck along a high edge may end under a
cap that closes over the corner, by as much as that one's wing is wide. Where no joint is made, the corner is to be made
by hand, and `corner-without-joint` says so.

**Fix** Lengthen a hand-placed piece, or let the lengths be worked out.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from ...edge_kinds import FACED, KINDS
from ...geometry.arrays import Array
from ...joints import hip_head, sealed_end
from ...joints.end import End
from ...layout import Part
from ...message import Length, message
from ...profiles.section import Section
from ...roof.build import is_bridged
from ...roof.record import Roof
from ..facts import Facts, PartSpan, blunt_slot, cut_edge
from ..record import Finding, Severity

RULE = "gap-in-run"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Water and wind get at the deck.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each stretch of a run without metal."""
    most = facts.layout.limits.number(RULE)
    patched = _patched(facts.layout.roof)
    parts = {part.mark: part for part in facts.layout.parts}
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        if not spans:
            continue
        low, high = (KINDS[run.trim].is_cap and vertex in patched for vertex in run.edge.vertices)
        ends = (
            (spans[0], spans[0].part.ends.low, 0.0, low),
            (spans[-1], spans[-1].part.ends.high, run.length, high),
        )
        stretches: list[tuple[float, float, tuple[PartSpan, ...]]] = [
            (
                u,
                max(bare_at(span.part, end, k, parts) for k in range(len(broad_strips(run.section))))
                - hip_head.LAP * has_patch,
                (span,),
            )
            for span, end, u, has_patch in ends
            if end.kind is not sealed_end.KIND
        ]
        stretches += [((a.high + b.low) / 2, b.low - a.high, (a, b)) for a, b in facts.laps(name)]
        for u, bare, beside in stretches:
            if bare > most:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    beside,
                    u,
                    message("{gap} of the edge has no metal on it", gap=Length(bare)),
                    message("Lengthen {mark} by {gap} and the lap.", mark=beside[0].mark, gap=Length(bare)),
                    measured=bare,
                )


def _patched(roof: Roof) -> set[int]:
    """Return the corners of the roof that lie under a patch over an edge too short for a cap."""
    return {vertex for edge in roof.edges if is_bridged(edge) for vertex in edge.vertices}


def broad_strips(section: Section) -> list[range]:
    """Return the strips that lie on the deck, and those that turn down over its edge; of a cap all between its hems."""
    face = section.leg("face")
    if face is not None:
        return [range(face.strip), range(face.strip, face.strip + 1)]
    first, last = ("top", "apron") if section.leg("apron") is not None else ("left wing", "right wing")
    return [range(section.strip_of(first), section.strip_of(last) + 1)]


def bare_at(part: Part, end: End, k: int, parts: Mapping[str, Part]) -> float:
    """Return how far strips stop short of their run's end, and of what they meet there, inches.

    Args:
        part: The piece.
        end: Which end of it.
        k: Which of its broad strips.
        parts: All pieces by mark.
    """
    strips, kind = broad_strips(part.run.section)[k], KINDS[part.run.trim]
    edge = part.run.edge
    corner, away = (edge.start, -edge.direction) if end.at == "low" else (edge.end, edge.direction)
    level = away * [1.0, 1.0, 0.0] / np.linalg.norm(away[:2])
    own = np.concatenate([cut_edge(part, end, strip) for strip in strips])
    bare = max(0.0, float(np.minimum((corner - own) @ level, (corner - own) @ away).min()))
    if bare and k == 0 and kind.legs == FACED and not kind.is_covered:
        bare = max(0.0, bare - _under_cap(part, end, parts))
    for other in (parts[mark] for mark in end.others if bare and mark in parts):
        if part.run.trim == other.run.trim or (kind.is_cap and KINDS[other.run.trim].is_cap):
            beside = broad_strips(other.run.section)[k]
            edges = [cut_edge(other, met, strip) for met in other.ends.corners for strip in beside]
            bare = min(bare, *(_apart(own, edge) for edge in edges))
        elif {part.run.trim, other.run.trim} == {"eave", "rake"}:
            bare = max(0.0, bare - blunt_slot(part, other))
    return bare


def _under_cap(part: Part, end: End, parts: Mapping[str, Part]) -> float:
    """Return how far a cap that closes over an end covers from the corner at least, inches: a wing's width; 0 for none.

    A leg that is as high as the cap ends short of its other wing.
    """
    return min(
        (
            float(np.diff(other.run.section.v)[other.run.section.strip_of(wing)])
            for other in parts.values()
            if KINDS[other.run.trim].is_cap
            for one in other.ends.corners
            if part.mark in one.others and other.run.vertex(one.at) == part.run.vertex(end.at)
            for wing in ("left wing", "right wing")
        ),
        default=0.0,
    )


def _apart(points: Array, line: Array) -> float:
    """Return how far the nearest of ``(n, 3)`` points is from a line through ``(k, 3)`` others, inches."""
    way = np.diff(line, axis=0)
    off = points[:, None] - line[None, :-1]
    share = np.clip((off * way).sum(axis=2) / np.maximum((way * way).sum(axis=1), 1e-12), 0.0, 1.0)
    return float(np.linalg.norm(off - share[..., None] * way, axis=2).min())
