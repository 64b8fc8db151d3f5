"""The piece list: a table with a row for each piece, for a spreadsheet or the shop's wall."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping

from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Message, message
from trimwright.model.sureness.record import PieceSureness

from ..display.ends import meets
from ..report.screw_marks import screws_told
from ..words.speaker import Speaker, speaker_of

COLUMNS: Mapping[str, Callable[[Part, Layout, Speaker], str]] = {
    "mark": lambda part, _, __: part.mark,
    "run": lambda part, _, __: part.run.name,
    "hand": lambda part, _, __: part.piece.hand or part.run.hand or "",
    "profile": lambda part, _, __: part.run.section.profile,
    "length": lambda part, layout, _: layout.scene.tape(part.length),
    "length in": lambda part, _, __: _inches(part.length),
    "least in": lambda part, layout, _: _inches(sure.least) if (sure := _sure(part, layout)) else "",
    "most in": lambda part, layout, _: _inches(sure.most) if (sure := _sure(part, layout)) else "",
    "to fit": lambda part, layout, _: ("no", "yes")[sure.fit] if (sure := _sure(part, layout)) else "",
    "stock": lambda part, layout, _: layout.scene.tape(part.piece.stock),
    "stock in": lambda part, _, __: _inches(part.piece.stock),
    "from in": lambda part, _, __: _inches(part.low),
    "to in": lambda part, _, __: _inches(part.high),
    "screws": lambda part, layout, say: screws_told(layout, part, say),
    "laps": lambda part, _, say: "; ".join(say(_at_end(end)) for end in part.ends.laps),
    "corners": lambda part, _, say: "; ".join(say(_at_end(end)) for end in part.ends.corners),
}
"""Every column by its head: what it says of a piece."""


def piece_list(layout: Layout) -> str:
    """Return the list as CSV: lengths as the tape reads them, and in inches where the column says ``in``."""
    say = speaker_of(layout.scene)
    text = io.StringIO()
    rows = csv.writer(text)
    rows.writerow(COLUMNS)
    for part in layout.parts:
        rows.writerow([_inert(cell(part, layout, say)) for cell in COLUMNS.values()])
    return text.getvalue()


def _inches(length: float) -> str:
    return f"{round(length, 3) + 0.0:.3f}"  # never -0.000


def _sure(part: Part, layout: Layout) -> PieceSureness | None:
    """Return how sure a piece's length is; None where nobody says."""
    return None if layout.sureness is None else layout.sureness.pieces[part.mark]


def _at_end(end: End) -> Message:
    """Return what one end meets."""
    if end.at == "low":
        return message("low end: {meets}", meets=meets(end))
    return message("high end: {meets}", meets=meets(end))


def _inert(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula, but for numbers."""
    begins = cell[:1] in ("=", "+", "@", "\t", "\r") or (cell[:1] == "-" and not _is_number(cell))
    return f"'{cell}" if begins else cell


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
