"""Many scenes checked, several at once where there are cores for it: one row, or one line, a scene."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rich import box
from rich.table import Table

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.measures import printable
from trimwright.model.message import Message, message

from ..words.speaker import Speaker
from .asked_language import asked_languages, asking
from .problems import CANNOT, own_fault, speaker_in

STATUS = {
    0: message("no errors"),
    1: message("has errors"),
    CANNOT: message("cannot be built"),
}
"""What an exit status means."""


@dataclass(frozen=True, slots=True)
class CheckedScene:
    """What became of one scene.

    Attributes:
        scene: Its file, as it was named.
        status: The exit status that checking it alone would have.
        lines: How many lines of findings there are to read.
        severities: The severity of each finding.
        problems: What keeps it from being built.
        report: The whole report as plain values; None when nobody asked for it, or it cannot be built.
    """

    scene: str
    status: int
    lines: int
    severities: tuple[str, ...]
    problems: tuple[str, ...]
    report: dict[str, Any] | None


def checked(path: Path, report: bool = False, languages: tuple[str, ...] = ()) -> CheckedScene:
    """Check one scene; what goes wrong with it is told, and keeps no other from being checked.

    Args:
        path: The scene.
        report: Whether to give the whole report.
        languages: In which it is told; none where the scene decides.
    """
    with asking(languages):
        return _checked(path, report)


def _checked(path: Path, report: bool) -> CheckedScene:
    from trimwright.model.checks.groups import groups_of

    from ..data.report import report_of
    from .work import laid_out, remedied, status

    try:
        layout, findings = remedied(path) if report else laid_out(path)
        whole = report_of(layout, findings) if report else None
    except TrimwrightError as error:
        return _refused(path, error.problems)
    except Exception as error:
        return _refused(path, (own_fault(error),))
    severities = tuple(one.severity for one in findings)
    return CheckedScene(str(path), status(findings), len(list(groups_of(findings))), severities, (), whole)


def check_all(paths: Sequence[Path], jobs: int, report: bool = False) -> Iterator[CheckedScene]:
    """Yield what became of each scene, in their order, as it is known.

    The engine is joblib's, so that ``joblib.parallel_config`` may put a cluster in the place of processes.

    Args:
        paths: The scenes.
        jobs: How many are checked at once.
        report: Whether to give the whole reports.
    """
    from joblib import Parallel, delayed

    work = Parallel(n_jobs=min(jobs, len(paths)), return_as="generator")
    yield from work(delayed(checked)(path, report, asked_languages()) for path in paths)


def line_of(one: CheckedScene) -> str:
    """Return what became of a scene as one line of JSON."""
    told = {"problems": one.problems} if one.problems else {"report": one.report}
    line = json.dumps({"scene": one.scene, "status": one.status, **told}, ensure_ascii=False, allow_nan=False)
    if line.isprintable():
        return line
    return json.dumps(json.loads(line), allow_nan=False).replace("\x7f", "\\u007f")


def table_of(results: Iterable[CheckedScene], say: Speaker) -> Table:
    """Return a table with a row for each scene: its status, how many findings of each severity, and lines to read."""
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False)
    table.add_column(say("scene"), overflow="fold")
    table.add_column(say("status"), no_wrap=True)
    for heading in (say("errors"), say("warnings"), say("notes"), say("lines")):
        table.add_column(heading, justify="right")
    for one in results:
        counts = [str(one.severities.count(severity)) for severity in ("error", "warning", "note")]
        cells = ["", "", "", ""] if one.problems else [*counts, str(one.lines)]
        table.add_row(printable(one.scene), say(STATUS[one.status]), *cells)
    return table


def _refused(path: Path, problems: Iterable[Message | Problem]) -> CheckedScene:
    """Return that a scene cannot be built, and why, in its own language."""
    say = speaker_in(path)
    return CheckedScene(str(path), CANNOT, 0, (), tuple(say(one) for one in problems), None)
