"""A shop's price list: rows of item, unit, price and waste, from a CSV or XLSX file that the shop owns."""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.message import Listed, Message, message

from .quantities import MEASURES, PERCENTAGES

COLUMNS = ("item", "unit", "price", "waste")
"""What the first row of a list says; ``waste`` may be left out."""

REMARK = "#"
"""A row that begins with it is for people."""

LARGEST = 4_000_000
"""Bytes; a shop's list has some thousand rows."""

MOST_ROWS = 20_000
HIGHEST = Decimal(10) ** 7
MOST_WASTE = Decimal(100)


class PriceListError(TrimwrightError):
    """A price list that cannot be used; says every line that is wrong, and why."""


@dataclass(frozen=True, slots=True)
class Price:
    """One row.

    Attributes:
        item: What is priced, in lower case: a profile's name, ``panels``, ``labor corner`` ...
        unit: What it is counted in.
        price: Of one unit; of what is a share of the sum, percent.
        waste: How much more of it is reckoned with, percent.
        line: Where it stands in the file, from 1.
    """

    item: str
    unit: str
    price: Decimal
    waste: Decimal
    line: int


@dataclass(frozen=True, slots=True)
class PriceList:
    """All rows, by item and unit."""

    prices: Mapping[tuple[str, str], Price]

    def of(self, item: str) -> tuple[Price, ...]:
        """Return what the list says of one item: a row for each unit that it is priced in."""
        return tuple(price for (name, _), price in self.prices.items() if name == item)


def read_price_list(path: Path) -> PriceList:
    """Return the price list in a CSV (UTF-8) or XLSX file.

    Raises:
        PriceListError: The file cannot be read, or rows of it; every problem in a line of its own.
    """
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        told = message("cannot be read: {reason}; give the path of a CSV or XLSX file", reason=reason)
        raise PriceListError(Problem(told, file=str(path))) from None
    if len(raw) > LARGEST:
        told = message("more than {most} bytes; give the rows of the price list alone", most=LARGEST)
        raise PriceListError(Problem(told, file=str(path)))
    match path.suffix.lower():
        case ".csv":
            rows = _csv_rows(raw, path.name)
        case ".xlsx":
            rows = _xlsx_rows(raw, path.name)
        case _:
            told = message("neither .csv nor .xlsx; save the price list as one of these")
            raise PriceListError(Problem(told, file=str(path)))
    return price_list_of(rows, path.name)


def price_list_of(rows: Iterable[Sequence[object]], name: str) -> PriceList:
    """Return the price list in rows of cells, the headings first.

    Raises:
        PriceListError: Headings are missing, or rows cannot be understood; every problem in a line of its own.
    """
    numbered = ((number, [_text(cell) for cell in row]) for number, row in enumerate(rows, 1))
    filled = ((number, row) for number, row in numbered if any(row) and not row[0].startswith(REMARK))
    first = next(filled, None)
    if first is None:
        told = message("empty; the first row says {columns}", columns=Listed(COLUMNS, "comma"))
        raise PriceListError(Problem(told, file=name))
    places = _places(first[1], name, first[0])
    prices: dict[tuple[str, str], Price] = {}
    problems: list[Message] = []
    for number, row in filled:
        if number > MOST_ROWS:
            problems.append(
                message("more than {most} rows; give the rows of the price list alone", most=MOST_ROWS)
            )
            break
        cells = {column: row[at] if at < len(row) else "" for column, at in places.items()}
        found, wrong = _price(cells, number)
        if found is not None:
            twin = prices.setdefault((found.item, found.unit), found)
            if twin is not found:
                wrong.append(
                    message(
                        "'{item}' by '{unit}' stands in line {line} too; keep one of them",
                        item=found.item,
                        unit=found.unit,
                        line=twin.line,
                    )
                )
        problems += [_in_line(number, problem) for problem in wrong]
    shares = [item for item in ("margin", "markup") if (item, "%") in prices]
    if len(shares) > 1:
        problems.append(message("margin and markup both stand here; keep the one that the shop reckons with"))
    if problems:
        raise PriceListError(*(Problem(problem, file=name) for problem in problems))
    return PriceList(prices)


def _in_line(number: int, problem: Message) -> Message:
    """Return a problem as one of a line, counted from 1."""
    return message("line {line}: {problem}", line=str(number), problem=problem)


def _places(headings: Sequence[str], name: str, line: int) -> dict[str, int]:
    """Return in which column of the file each heading stands."""
    names = [heading.lower() for heading in headings]
    missing = [column for column in COLUMNS[:3] if column not in names]
    if missing:
        told = message(
            "no column is called {missing}; the first row says {columns}",
            missing=Listed(tuple(missing), "or"),
            columns=Listed(COLUMNS, "comma"),
        )
        raise PriceListError(Problem(_in_line(line, told), file=name))
    return {column: names.index(column) for column in COLUMNS if column in names}


def _price(cells: Mapping[str, str], line: int) -> tuple[Price | None, list[Message]]:
    """Return one row's price, and what is wrong with the row."""
    problems: list[Message] = []
    item, unit = " ".join(cells["item"].lower().split()), cells["unit"].lower()
    if not item:
        problems.append(message("the item is missing; say what is priced"))
    if item in PERCENTAGES:
        if unit != "%":
            problems.append(message("{item} is in '{unit}'; its unit is %", item=item, unit=unit))
    elif unit not in MEASURES:
        known = Listed(tuple(MEASURES), "comma")
        problems.append(message("'{unit}' is no unit; take one of {known}", unit=unit, known=known))
    highest = Decimal(99) if item == "margin" else HIGHEST
    price = _decimal(cells["price"], "price", highest, problems)
    waste = _decimal(cells.get("waste", "") or "0", "waste", MOST_WASTE, problems)
    if problems or price is None or waste is None:
        return None, problems
    return Price(item, unit, price, waste, line), problems


def _decimal(text: str, column: str, highest: Decimal, problems: list[Message]) -> Decimal | None:
    """Return a number of 0 or more; tell what is wrong with another."""
    plain = text.replace(" ", "").removesuffix("%").lstrip("$€£")
    try:
        number = Decimal(plain)
    except InvalidOperation:
        if text:
            told = message(
                "{column}: {came} is no number; give one such as 4.75, with a point before the cents",
                column=column,
                came=repr(text[:40]),
            )
        else:
            told = message(
                "{column}: it is missing; give one such as 4.75, with a point before the cents", column=column
            )
        problems.append(told)
        return None
    if not number.is_finite() or not 0 <= number <= highest:
        problems.append(
            message(
                "{column}: {came} is not between 0 and {highest}",
                column=column,
                came=text[:40],
                highest=str(highest),
            )
        )
        return None
    return number


def _text(cell: object) -> str:
    """Return a cell as text: a number as it is written, and nothing for an empty one."""
    if cell is None:
        return ""
    if isinstance(cell, float):
        return format(Decimal(repr(cell)), "f")
    return str(cell).strip()


def _csv_rows(raw: bytes, name: str) -> Iterator[Sequence[object]]:
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        told = _in_line(line, message("not UTF-8 text; save the list as CSV in UTF-8"))
        raise PriceListError(Problem(told, file=name)) from None
    try:
        first = text.partition("\n")[0]
        yield from csv.reader(
            io.StringIO(text, newline=""), delimiter=";" if first.count(";") > first.count(",") else ","
        )
    except csv.Error as error:
        told = message("not CSV: {reason}; save the list as CSV once more", reason=str(error))
        raise PriceListError(Problem(told, file=name)) from None


def _xlsx_rows(raw: bytes, name: str) -> Iterator[Sequence[object]]:
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        book = load_workbook(io.BytesIO(raw), read_only=True, data_only=True)
        yield from book.worksheets[0].iter_rows(values_only=True)
    except (InvalidFileException, zipfile.BadZipFile, KeyError, ValueError, OSError, IndexError) as error:
        told = message(
            "not a workbook that can be read ({reason}); save it as XLSX once more", reason=str(error)
        )
        raise PriceListError(Problem(told, file=name)) from None
