"""The piece list: a table with a row for each piece, for a spreadsheet or the shop's wall."""

from __future__ import annotations

import csv
import io

from trimwright.model.joints.end import End
from trimwright.model.layout import Layout
from trimwright.model.message import Message, message

from ..display.ends import meets
from ..report.screw_marks import screws_told
from ..words.speaker import speaker_of

COLUMNS = (
    "mark",
    "run",
    "hand",
    "profile",
    "length",
    "length in",
    "least in",
    "most in",
    "to fit",
    "stock",
    "stock in",
    "from in",
    "to in",
    "screws",
    "laps",
    "corners",
)


def piece_list(layout: Layout) -> str:
    """Return the list as CSV: lengths as the tape reads them, and in inches where the column says ``in``."""
    show, say = layout.scene.tape, speaker_of(layout.scene)
    text = io.StringIO()
    rows = csv.writer(text)
    rows.writerow(COLUMNS)
    for part in layout.parts:
        row = [
            part.mark,
            part.run.name,
            part.piece.hand or part.run.hand or "",
            part.run.section.profile,
            show(part.length),
            f"{part.length:.3f}",
            *_sure(part.mark, layout),
            show(part.piece.stock),
            f"{part.piece.stock:.3f}",
            f"{round(part.low, 3) + 0.0:.3f}",
            f"{round(part.high, 3) + 0.0:.3f}",
            screws_told(layout, part, say),
            "; ".join(say(_at_end(end)) for end in part.ends.laps),
            "; ".join(say(_at_end(end)) for end in part.ends.corners),
        ]
        rows.writerow([_inert(cell) for cell in row])
    return text.getvalue()


def _sure(mark: str, layout: Layout) -> tuple[str, str, str]:
    """Return a piece's least and greatest length, and whether it is cut to fit; empty where nobody says."""
    if layout.sureness is None:
        return ("", "", "")
    one = layout.sureness.pieces[mark]
    return (f"{one.least:.3f}", f"{one.most:.3f}", "yes" if one.fit else "no")


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
