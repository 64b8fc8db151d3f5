"""A piece is longer than the stock it would be cut from.

**Finds** a blank, laps and corner allowances included, longer than the longest stock length of the scene.

**Fix** Order longer stock, or split the piece.

**Source** The stock lengths are the scene's own.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...runs import Run
from ...scene.draft import Changes
from ...tolerances import POINT
from ..facts import Facts
from ..proposals import laid_out_again, with_pieces
from ..record import Finding, Severity

RULE = "piece-longer-than-stock"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("A piece cannot be cut from metal that is shorter than it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece that no stock length holds."""
    longest = max(facts.layout.scene.metal.stock)
    over = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        for span in spans:
            if span.length > longest + over + POINT:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (span,),
                    (span.low + span.high) / 2,
                    message(
                        "the blank is {length}, the longest stock {stock}",
                        length=Length(span.length),
                        stock=Length(longest),
                    ),
                    message("Order longer stock, or make it in two pieces with a lap."),
                    measured=span.length - longest,
                    proposals=_proposals(facts, facts.runs[name], span.part.piece.number),
                )


def _proposals(facts: Facts, run: Run, number: int) -> tuple[Changes, ...]:
    """Return the changes that make two pieces of one that is placed by hand, or leave the run to the layout."""
    scene, pieces = facts.layout.scene, run.spec.pieces
    if pieces is None:
        return ()
    whole = pieces[number - 1]
    half = whole.model_copy(update={"length": (whole.length + run.spec.lap) / 2})
    second = half.model_copy(update={"lies": None})
    return (
        *with_pieces(run, scene, [*pieces[: number - 1], half, second, *pieces[number:]]),
        laid_out_again(run, scene),
    )
