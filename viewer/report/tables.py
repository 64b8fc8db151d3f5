"""What a command prints: the runs and their short pieces, screws and findings, in a terminal of any width."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator, Sequence

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.record import Finding, Severity
from trimwright.model.layout import Layout
from trimwright.model.message import Length, Listed, Message, counted, message
from trimwright.model.metals import METAL_WORDS

from ..words.speaker import Speaker, speaker_of
from .short import ShortPiece, short_pieces
from .terms import told_first
from .words import SEVERITY, UNDER, group_told, lengths_of, totals

MOST = 12
"""Lines of findings that a summary prints; the report has all of them."""

PIPED = 110
"""Characters a line, when nobody says how wide the terminal is."""

NARROW = 76
"""Characters a line; the table of runs does not read well in fewer."""

COLORS: dict[Severity, str] = {"error": "bold red", "warning": "yellow", "note": "cyan"}


def console(*, error: bool = False) -> Console:
    """Return a console for plain words: nothing in a scene's texts is taken for markup."""
    terminal = (sys.stderr if error else sys.stdout).isatty()
    width = None if terminal else PIPED
    return Console(stderr=error, markup=False, highlight=False, emoji=False, width=width)


def print_summary(to: Console, layout: Layout, findings: Sequence[Finding]) -> None:
    """Print the table of runs, the screws, and the findings that matter most."""
    to.print(layout.scene.title, style="bold")
    if to.width < NARROW:
        for line in _lines(layout):
            to.print(line)
    else:
        to.print(_table(layout))
    say = speaker_of(layout.scene)
    to.print(say(_contents(layout)))
    for term in told_first(layout, findings, say.tape):
        to.print(say(term), soft_wrap=not to.is_terminal)
    print_findings(to, findings, say, most=MOST)


def _contents(layout: Layout) -> Message:
    """Return how many screws and panels there are."""
    rows = Counter(screw.mark for screw in layout.screws)
    panels = counted("{count} panel", "{count} panels", count=len(layout.panels))
    if not rows:
        return panels
    count, metal = sum(rows.values()), METAL_WORDS[layout.scene.screws.kind]
    pieces = counted("{count} piece of trim", "{count} pieces of trim", count=len(layout.parts))
    if len(rows) == len(layout.parts):
        screws = counted(
            "{count} {metal} screw in {pieces}",
            "{count} {metal} screws in {pieces}",
            count=count,
            metal=metal,
            pieces=pieces,
        )
    else:
        screws = counted(
            "{count} {metal} screw in {screwed} of {pieces}",
            "{count} {metal} screws in {screwed} of {pieces}",
            count=count,
            metal=metal,
            screwed=len(rows),
            pieces=pieces,
        )
    return message("{contents}", contents=Listed((screws, panels), "comma"))


def print_findings(to: Console, findings: Sequence[Finding], say: Speaker, most: int | None = None) -> None:
    """Print findings a line a group, the worst first, at most ``most`` lines, and how many findings there are."""
    groups = tuple(groups_of(findings))
    shown = groups[:most]
    for group in shown:
        finding = group[0]
        line = Text("" if finding.cause is None else UNDER)
        line.append(f"{say(SEVERITY[finding.severity]):<8}", style=COLORS[finding.severity])
        line.append(f"{finding.rule}  ", style="bold")
        line.append(say(group_told(group, say.tape)), style="default")
        to.print(line, soft_wrap=not to.is_terminal)
    more = sum(len(group) for group in groups[len(shown) :])
    if more:
        to.print(say("and {count} more in {file}", count=more, file="report.json"))
    to.print(say(totals(findings)))


def _rows(layout: Layout) -> Iterator[tuple[str, str, str, str]]:
    """Yield what is told of each run: its name, its pieces, its short pieces and how many screws it takes."""
    show, say = layout.scene.tape, speaker_of(layout.scene)
    short: dict[str, list[ShortPiece]] = {}
    for piece in short_pieces(layout):
        short.setdefault(piece.run, []).append(piece)
    for run in layout.runs:
        parts = layout.parts_of(run.name)
        yield (
            f"{run.code} {run.name}",
            lengths_of([part.length for part in parts], show),
            "; ".join(say(_landing(one)) for one in short.get(run.name, ())),
            str(sum(len(layout.screws_of(part.mark)) for part in parts)),
        )


def _landing(piece: ShortPiece) -> Message:
    return message("{mark} {length} {at}", mark=piece.mark, length=Length(piece.length), at=piece.spot.at)


def _table(layout: Layout) -> Table:
    say = speaker_of(layout.scene)
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False)
    for name in (say("run"), say("pieces"), say("short piece")):
        table.add_column(name, overflow="fold")
    table.add_column(say("screws"), justify="right")
    for row in _rows(layout):
        table.add_row(*row)
    return table


def _lines(layout: Layout) -> Iterator[str]:
    """Yield the same as the table, a paragraph a run, for a terminal too narrow for columns."""
    say = speaker_of(layout.scene)
    for run, pieces, short, screws in _rows(layout):
        values = {"run": run, "pieces": pieces, "screws": screws}
        if short:
            yield say("{run}: {pieces}; short piece {short}; {screws} screws", **values, short=short)
        else:
            yield say("{run}: {pieces}; {screws} screws", **values)
