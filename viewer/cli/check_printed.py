"""What is found in a layout, printed: a line a group of findings, or the whole report."""

from __future__ import annotations

from collections.abc import Sequence

import typer

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout

from ..report.terms import told_first
from ..report.words import SEVERITY, UNDER, group_told, totals
from ..words.speaker import speaker_of


def print_checked(layout: Layout, findings: Sequence[Finding], json: bool) -> None:
    """Print all that is found in a layout: a line a group, under the terms of the check, or as JSON."""
    if json:
        from ..data.report import report_of, written

        typer.echo(written(report_of(layout, findings)), nl=False)
        return
    say = speaker_of(layout.scene)
    for term in told_first(layout, findings, say.tape):
        typer.echo(say(term))
    widest = max(len(say(word)) for word in SEVERITY.values())
    for group in groups_of(findings):
        severity, words = say(SEVERITY[group[0].severity]), say(group_told(group, say.tape))
        under = "" if group[0].cause is None else UNDER
        typer.echo(f"{under}{severity:<{widest}} {group[0].rule}  {words}")
    typer.echo(say(totals(findings)))
