"""A hand is given to trim that has none.

**Finds** a piece with a hand on an eave, a ridge, a hip or a valley: only rakes are left or right.

**Fix** Leave the hand out, or give it to the rake that is meant.

**Source** Common practice, no source: a left rake and a right rake are mirror images; other trim fits at either end.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import message
from ..facts import Facts
from ..proposals import unsaid
from ..record import Finding, Severity
from ..scene_place import at_key

RULE = "hand-without-side"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("The hand may be meant for another piece, which is then made to the wrong one.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece whose hand nothing comes of."""
    for run in facts.runs.values():
        own = facts.layout.scene.run.get(run.name)
        key = ("run", run.name) if own is not None and own.pieces else ("trim", run.trim)
        for number, piece in enumerate(run.spec.pieces or ()):
            if piece.hand is not None and run.hand is None:
                yield at_key(
                    facts,
                    RULE,
                    SEVERITY,
                    (*key, "pieces", number, "hand"),
                    message("the {run} is neither left nor right", run=run.words),
                    message("Leave the hand out, or give it to the rake that is meant."),
                    proposals=unsaid(run, facts.layout.scene, "hand", number + 1),
                )
