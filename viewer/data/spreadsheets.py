"""Write the lists for a spreadsheet: CSV, one file a list, and XLSX, one sheet a list."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from datetime import datetime

import xlsxwriter

from ..buy.lists import noted, spread_out
from ..buy.record import List
from ..words.speaker import Speaker

WIDEST = 60
"""Characters that a column is wide, at most."""

LONGEST_NAME = 31
"""Characters that the name of a sheet has, at most. Source: Office Open XML, as spreadsheet programs keep to it."""

NO_DAY = datetime(2000, 1, 1)
"""When every workbook says that it was made, as its format asks for a time: the same lists give the same bytes."""

NOT_IN_NAMES = str.maketrans(dict.fromkeys("[]:*?/\\", "-"))
"""What the name of a sheet may not hold, and what stands for it."""


def csv_of(each: List, say: Speaker) -> str:
    """Return a list as the text of a CSV file."""
    names, rows = spread_out(each, say)
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(names)
    for row in rows:
        writer.writerow([_inert(cell) for cell in row])
    return text.getvalue()


def xlsx_of(lists: Sequence[List], title: str, say: Speaker) -> bytes:
    """Return a workbook with one sheet for each list; the same lists give the same bytes.

    Args:
        lists: The lists.
        title: Of the workbook.
        say: Says them.
    """
    buffer = io.BytesIO()
    book = xlsxwriter.Workbook(
        buffer, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    book.set_properties({"title": title, "author": "", "comments": "", "created": NO_DAY})
    bold = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "bottom"})
    soft = book.add_format({"italic": True, "font_color": "#5a5a5a"})
    taken: set[str] = set()
    for each in lists:
        sheet = book.add_worksheet(_sheet_name(say(each.name), taken))
        names, rows = spread_out(each, say)
        sheet.write_row(0, 0, names, bold)
        for number, row in enumerate(rows, 1):
            for column, cell in enumerate(row):
                if cell is not None:
                    sheet.write(number, column, cell)
        for column, name in enumerate(names):
            longest = max([len(name), *(len(str(row[column])) for row in rows)])
            sheet.set_column(column, column, min(WIDEST, longest + 2))
        sheet.freeze_panes(1, 0)
        sheet.repeat_rows(0)
        sheet.fit_to_pages(1, 0)
        if each.notes:
            sheet.write(len(rows) + 2, 0, noted(each, say), soft)
    book.close()
    return buffer.getvalue()


def _sheet_name(name: str, taken: set[str]) -> str:
    """Return a name that a sheet may have, without the signs that none may hold, and add it to those that are taken."""
    short = name.translate(NOT_IN_NAMES)[:LONGEST_NAME].strip()
    others = (f"{short[: LONGEST_NAME - 3]} {number}" for number in range(2, 100))
    fit = next(one for one in (short, *others) if one.casefold() not in taken)
    taken.add(fit.casefold())
    return fit


def _inert(cell: str | float | None) -> str | float:
    """Return a cell that no spreadsheet takes for a formula."""
    if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@", "\t", "\r"):
        return f"'{cell}"
    return "" if cell is None else cell
