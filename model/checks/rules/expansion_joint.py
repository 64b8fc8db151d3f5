"""A length of trim that moves as one is too long.

**Finds** pieces that are pinned together, by screws through their laps or because the run is fixed, over a
greater length than the limit for their metal. Laps without screws slide, and count as expansion joints.

**Fix** Leave a lap without screws, so that it can slide.

**Source** UFGS 07600 3.1.26 for copper, stainless and aluminum; the project's own for the others.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...runs import Run
from ...scene.draft import Changes
from ...tolerances import TAPE
from ..facts import Facts, PartSpan
from ..proposals import for_run, screws_left_out, stock_up_to
from ..record import Finding, Severity

RULE = "expansion-joint"
KINDS = ("steel", "galvanized", "stainless", "copper", "aluminum", "aluminum-edge", "zinc")
LIMITS = tuple(f"{RULE}-{kind}" for kind in KINDS)
SEVERITY: Severity = "warning"
WHY = message("All movement of a run without a joint comes out at its two ends, and tears the corners.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each length that moves as one and is too long."""
    kind = facts.layout.scene.metal.kind
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        edge = kind == "aluminum" and len(run.edge.faces) == 1
        limit = facts.limit(f"{RULE}-{kind}{'-edge' if edge else ''}")
        most = facts.layout.limits.number(limit.rule)
        for chain in _pinned(facts, name, spans):
            length = chain[-1].high - chain[0].low
            if length > most + TAPE:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    chain,
                    (chain[0].low + chain[-1].high) / 2,
                    message(
                        "{length} of {metal} moves as one length, more than {most}",
                        length=Length(length),
                        metal=kind,
                        most=Length(most),
                    ),
                    message("Leave a lap without screws, so that it can slide.")
                    if len(chain) > 1
                    else message("Cut the run into pieces of at most {most}.", most=Length(most)),
                    measured=length,
                    limit=limit,
                    place=message("{first} to {last}", first=chain[0].mark, last=chain[-1].mark)
                    if len(chain) > 1
                    else None,
                    proposals=_proposals(facts, run, chain, most),
                )


def _pinned(facts: Facts, name: str, spans: tuple[PartSpan, ...]) -> Iterator[tuple[PartSpan, ...]]:
    """Yield the groups of neighboring pieces that cannot move against each other."""
    chain: list[PartSpan] = []
    for span in spans:
        if chain and not (facts.runs[name].spec.fixed or _screwed_together(facts, chain[-1], span)):
            yield tuple(chain)
            chain = []
        chain.append(span)
    if chain:
        yield tuple(chain)


def _screwed_together(facts: Facts, lower: PartSpan, upper: PartSpan) -> bool:
    """Return whether a screw of either piece stands in their lap."""
    return any(
        bool(((at > upper.low) & (at < lower.high)).any())
        for at in (facts.screws[span.mark][:, 0] + span.low for span in (lower, upper))
    )


def _proposals(facts: Facts, run: Run, chain: tuple[PartSpan, ...], most: float) -> tuple[Changes, ...]:
    """Return the changes that let a length move in parts: laps that slide, and stock that is short enough."""
    scene = facts.layout.scene
    if run.spec.fixed and len(chain) > 1:
        return for_run(run, scene, "fixed", False)
    placed = [span.mark for span in chain if span.mark in scene.screws.placed]
    if len(chain) > 1 and placed:
        return (screws_left_out(placed),)
    return stock_up_to(scene, most)
