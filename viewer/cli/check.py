"""``trimwright check``: what is wrong with a layout, without drawing anything."""

from __future__ import annotations

from typing import Annotated

import typer

from .arguments import SceneFile
from .problems import told


def check(
    scene: SceneFile,
    json: Annotated[bool, typer.Option("--json", help="Print the whole report as JSON.")] = False,
) -> None:
    """Say what is wrong with the layout of SCENE."""
    with told(scene):
        from trimwright.model.checks.groups import groups_of
        from trimwright.model.checks.terms import terms_of

        from ..report.terms import terms_told
        from ..report.words import SEVERITY, UNDER, group_told, totals
        from ..words.speaker import speaker_of
        from .work import laid_out, status

        layout, findings = laid_out(scene)
        if json:
            from ..data.report import report_of, written

            typer.echo(written(report_of(layout, findings)), nl=False)
        else:
            say = speaker_of(layout.scene)
            for term in terms_told(terms_of(layout, findings), say.tape):
                typer.echo(say(term))
            for group in groups_of(findings):
                severity, words = say(SEVERITY[group[0].severity]), say(group_told(group, say.tape))
                under = "" if group[0].cause is None else UNDER
                typer.echo(f"{under}{severity:<8}{group[0].rule}  {words}")
            typer.echo(say(totals(findings)))
    raise typer.Exit(status(findings))
