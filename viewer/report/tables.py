"""What a command prints: the runs and their short pieces, screws and findings, in a terminal of any width."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import groupby

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from trimwright.model.checks.record import Finding, Severity
from trimwright.model.layout import Layout

from .short import ShortPiece, short_pieces
from .words import counted, lengths_of, sentence_of

MOST = 12
"""Findings that a summary prints; the report has all of them."""

PIPED = 110
"""Characters a line, when nobody says how wide the terminal is."""

COLORS: dict[Severity, str] = {"error": "bold red", "warning": "yellow", "note": "cyan"}


def console(*, error: bool = False) -> Console:
    """Return a console for plain words: nothing in a scene's texts is taken for markup."""
    plain = Console(stderr=error, markup=False, highlight=False, emoji=False)
    return (
        plain
        if plain.is_terminal
        else Console(stderr=error, markup=False, highlight=False, emoji=False, width=PIPED)
    )


def print_summary(to: Console, layout: Layout, findings: Sequence[Finding]) -> None:
    """Print the table of runs, the screws, and the findings that matter most."""
    to.print(layout.scene.title, style="bold")
    to.print(_runs(layout, narrow=to.width < 70))
    rows = Counter(screw.mark for screw in layout.screws)
    scene, words = layout.scene, []
    if rows:
        words.append(f"{sum(rows.values())} {scene.screws.kind} screws in {len(rows)} pieces")
    words.append(f"{len(layout.panels)} panels")
    to.print(", ".join(words))
    print_findings(to, findings, most=MOST)


def print_findings(to: Console, findings: Sequence[Finding], most: int | None = None) -> None:
    """Print findings a line each, the worst first, at most ``most`` of them, and how many there are."""
    shown = findings if most is None else findings[:most]
    for finding in shown:
        line = Text(f"{finding.severity:<8}", style=COLORS[finding.severity])
        line.append(f"{finding.rule}  ", style="bold")
        line.append(sentence_of(finding), style="default")
        to.print(line, soft_wrap=not to.is_terminal)
    if len(shown) < len(findings):
        to.print(f"and {len(findings) - len(shown)} more in report.json")
    to.print(counted(findings))


def _runs(layout: Layout, *, narrow: bool) -> Table:
    show = layout.scene.tape
    short: dict[str, list[ShortPiece]] = {}
    for piece in short_pieces(layout):
        short.setdefault(piece.run, []).append(piece)
    screws = Counter(screw.mark for screw in layout.screws)
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False)
    table.add_column("run", overflow="fold")
    table.add_column("pieces", overflow="fold")
    table.add_column("short piece", overflow="fold")
    if not narrow:
        table.add_column("screws", justify="right")
    for name, group in groupby(layout.parts, key=lambda part: part.run.name):
        parts = list(group)
        cells = [
            f"{parts[0].run.code} {name}",
            lengths_of([part.length for part in parts], show),
            "; ".join(f"{one.mark} {show(one.length)} at the {one.where}" for one in short.get(name, ())),
        ]
        table.add_row(*cells, *([] if narrow else [str(sum(screws[part.mark] for part in parts))]))
    return table
