"""Rows of a file that a shop keeps beside its scenes: CSV or XLSX, the first row saying what each column is."""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from pathlib import Path

from ..errors import Problem, TrimwrightError
from ..message import Listed, Message, message

LARGEST = 4_000_000
"""Bytes; a shop's list has some thousand rows."""

REMARK = "#"
"""A row that begins with it is for people."""


def read_rows(path: Path, refuse: type[TrimwrightError]) -> Iterator[Sequence[object]]:
    """Return the rows of cells in a CSV (UTF-8) or XLSX file; they are read as they are asked for.

    Args:
        path: Where it is.
        refuse: Raised when the file cannot be read.
    """
    raw = bytes_in(path, refuse)
    match path.suffix.lower():
        case ".csv":
            return _csv_rows(raw, path.name, refuse)
        case ".xlsx":
            return _xlsx_rows(raw, path.name, refuse)
        case _:
            told = message("neither .csv nor .xlsx; save the list as one of these")
            raise refuse(Problem(told, file=str(path)))


def bytes_in(path: Path, refuse: type[TrimwrightError]) -> bytes:
    """Return what is in a file.

    Args:
        path: Where it is.
        refuse: Raised when it cannot be read, or is larger than any list.
    """
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        told = message("cannot be read: {reason}; give the path of a file with the list", reason=reason)
        raise refuse(Problem(told, file=str(path))) from None
    if len(raw) > LARGEST:
        told = message("more than {most} bytes; give the rows of the list alone", most=LARGEST)
        raise refuse(Problem(told, file=str(path)))
    return raw


def filled(rows: Iterable[Sequence[object]]) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows that say something as text, each with its line in the file, from 1."""
    for number, row in enumerate(rows, 1):
        cells = [_text(cell) for cell in row]
        if any(cells) and not cells[0].startswith(REMARK):
            yield number, cells


def columns_in(headings: Sequence[str], columns: Sequence[str], needed: int) -> dict[str, int] | Message:
    """Return in which place of a row each column stands, or what is wrong with the headings.

    Args:
        headings: The first row.
        columns: What columns there may be.
        needed: How many of the first of them there must be.
    """
    names = [heading.lower() for heading in headings]
    missing = [column for column in columns[:needed] if column not in names]
    if missing:
        return message(
            "no column is called {missing}; the first row says {columns}",
            missing=Listed(tuple(missing), "or"),
            columns=Listed(tuple(columns), "comma"),
        )
    return {column: names.index(column) for column in columns if column in names}


def in_line(number: int, problem: Message) -> Message:
    """Return a problem as one of a line, counted from 1."""
    return message("line {line}: {problem}", line=str(number), problem=problem)


def _text(cell: object) -> str:
    """Return a cell as text: a number as it is written, and nothing for an empty one."""
    if cell is None:
        return ""
    if isinstance(cell, float):
        return format(Decimal(repr(cell)), "f")
    return str(cell).strip()


def _csv_rows(raw: bytes, name: str, refuse: type[TrimwrightError]) -> Iterator[Sequence[object]]:
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        told = in_line(line, message("not UTF-8 text; save the list as CSV in UTF-8"))
        raise refuse(Problem(told, file=name)) from None
    try:
        first = text.partition("\n")[0]
        yield from csv.reader(
            io.StringIO(text, newline=""), delimiter=";" if first.count(";") > first.count(",") else ","
        )
    except csv.Error as error:
        told = message("not CSV: {reason}; save the list as CSV once more", reason=str(error))
        raise refuse(Problem(told, file=name)) from None


def _xlsx_rows(raw: bytes, name: str, refuse: type[TrimwrightError]) -> Iterator[Sequence[object]]:
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        book = load_workbook(io.BytesIO(raw), read_only=True, data_only=True)
        yield from book.worksheets[0].iter_rows(values_only=True)
    except (InvalidFileException, zipfile.BadZipFile, KeyError, ValueError, OSError, IndexError) as error:
        told = message(
            "not a workbook that can be read ({reason}); save it as XLSX once more", reason=str(error)
        )
        raise refuse(Problem(told, file=name)) from None
