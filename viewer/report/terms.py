"""The terms of a check in sentences: they stand over its findings wherever those are read; nothing is hidden."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trimwright.model.checks.record import Finding
from trimwright.model.checks.terms import Acceptance, Terms, terms_of
from trimwright.model.layout import Layout
from trimwright.model.message import Listed, Message, counted, message
from trimwright.model.units import Tape

from .sureness import sureness_told
from .survey import survey_told
from .words import limit_told

UNCHECKED = message(
    "Not checked: the deck and the frame, how much the screws hold, and the pressure of the wind."
)
"""What no rule looks at."""


def told_first(layout: Layout, findings: Sequence[Finding], show: Tape) -> Iterator[Message]:
    """Yield what stands over the findings: the terms, and what a survey says of the sizes."""
    yield from terms_told(terms_of(layout, findings), show)
    yield from survey_told(layout)
    yield from sureness_told(layout)


def terms_told(terms: Terms, show: Tape) -> Iterator[Message]:
    """Yield a sentence for each term: the rule set, what the scene changed and why, and what was not checked."""
    yield message("Rules: {rules}.", rules=terms.rule_set)
    for limit in terms.overridden:
        yield message("Limit {rule}: {limit}.", rule=limit.rule, limit=limit_told(limit, show))
    for rule, reason in terms.off.items():
        yield message("Switched off: {rule}, reason: {reason}.", rule=rule, reason=reason.rstrip("."))
    for acceptance in terms.acceptances:
        yield _accepted(acceptance)
    yield UNCHECKED
    if terms.bare:
        yield message("Left bare, and not checked: {edges}.", edges=Listed(terms.bare))
    for runs in terms.sealed:
        yield message("No joint is made, only sealant put, where these end: {runs}.", runs=Listed(runs))


def _accepted(acceptance: Acceptance) -> Message:
    """Return what an acceptance covers, or that it matches nothing."""
    asked, count = acceptance.asked, len(acceptance.findings)
    where = asked.where or message("everywhere")
    values = {"rule": asked.rule, "where": where, "reason": asked.reason.rstrip(".")}
    if not count:
        return message(
            "Accepted, but there is no such finding any longer: {rule}, {where}, reason: {reason}.", **values
        )
    return counted(
        "Accepted: {rule}, {where} ({count} finding), reason: {reason}.",
        "Accepted: {rule}, {where} ({count} findings), reason: {reason}.",
        count=count,
        **values,
    )
