"""A shop's price list: rows of item, unit, price and waste, from a CSV or XLSX file that the shop owns."""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path

from trimwright.model.errors import TrimwrightError

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
        raise PriceListError(
            f"{path}: cannot be read: {reason}; give the path of a CSV or XLSX file"
        ) from None
    if len(raw) > LARGEST:
        raise PriceListError(f"{path}: more than {LARGEST:,} bytes; give the rows of the price list alone")
    match path.suffix.lower():
        case ".csv":
            rows = _csv_rows(raw, path.name)
        case ".xlsx":
            rows = _xlsx_rows(raw, path.name)
        case _:
            raise PriceListError(f"{path}: neither .csv nor .xlsx; save the price list as one of these")
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
        raise PriceListError(f"{name}: empty; the first row says {', '.join(COLUMNS)}")
    places = _places(first[1], name, first[0])
    prices: dict[tuple[str, str], Price] = {}
    problems: list[str] = []
    for number, row in filled:
        if number > MOST_ROWS:
            problems.append(f"{name}: more than {MOST_ROWS:,} rows; give the rows of the price list alone")
            break
        cells = {column: row[at] if at < len(row) else "" for column, at in places.items()}
        found, wrong = _price(cells, number)
        if found is not None:
            twin = prices.setdefault((found.item, found.unit), found)
            if twin is not found:
                wrong.append(
                    f"{found.item!r} by {found.unit!r} stands in line {twin.line} too; keep one of them"
                )
        problems += [f"{name}: line {number}: {problem}" for problem in wrong]
    shares = [item for item in ("margin", "markup") if (item, "%") in prices]
    if len(shares) > 1:
        problems.append(f"{name}: margin and markup both stand here; keep the one that the shop reckons with")
    if problems:
        raise PriceListError("\n".join(problems))
    return PriceList(prices)


def _places(headings: Sequence[str], name: str, line: int) -> dict[str, int]:
    """Return in which column of the file each heading stands."""
    names = [heading.lower() for heading in headings]
    missing = [column for column in COLUMNS[:3] if column not in names]
    if missing:
        raise PriceListError(
            f"{name}: line {line}: no column is called {' or '.join(missing)}; "
            f"the first row says {', '.join(COLUMNS)}"
        )
    return {column: names.index(column) for column in COLUMNS if column in names}


def _price(cells: Mapping[str, str], line: int) -> tuple[Price | None, list[str]]:
    """Return one row's price, and what is wrong with the row."""
    problems: list[str] = []
    item, unit = " ".join(cells["item"].lower().split()), cells["unit"].lower()
    if not item:
        problems.append("the item is missing; say what is priced")
    if item in PERCENTAGES:
        if unit != "%":
            problems.append(f"{item} is in {unit!r}; its unit is %")
    elif unit not in MEASURES:
        problems.append(f"{unit!r} is no unit; take one of {', '.join(MEASURES)}")
    highest = Decimal(99) if item == "margin" else HIGHEST
    price = _decimal(cells["price"], "price", highest, problems)
    waste = _decimal(cells.get("waste", "") or "0", "waste", MOST_WASTE, problems)
    if problems or price is None or waste is None:
        return None, problems
    return Price(item, unit, price, waste, line), problems


def _decimal(text: str, what: str, highest: Decimal, problems: list[str]) -> Decimal | None:
    """Return a number of 0 or more; tell what is wrong with another."""
    plain = text.replace(" ", "").removesuffix("%").lstrip("$€£")
    try:
        number = Decimal(plain)
    except InvalidOperation:
        told = f"{text[:40]!r} is no number" if text else "it is missing"
        problems.append(f"{what}: {told}; give one such as 4.75, with a point before the cents")
        return None
    if not number.is_finite() or not 0 <= number <= highest:
        problems.append(f"{what}: {text[:40]} is not between 0 and {highest}")
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
        raise PriceListError(f"{name}: line {line}: not UTF-8 text; save the list as CSV in UTF-8") from None
    try:
        first = text.partition("\n")[0]
        yield from csv.reader(
            io.StringIO(text, newline=""), delimiter=";" if first.count(";") > first.count(",") else ","
        )
    except csv.Error as error:
        raise PriceListError(f"{name}: not CSV: {error}; save the list as CSV once more") from None


def _xlsx_rows(raw: bytes, name: str) -> Iterator[Sequence[object]]:
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        book = load_workbook(io.BytesIO(raw), read_only=True, data_only=True)
        yield from book.worksheets[0].iter_rows(values_only=True)
    except (InvalidFileException, zipfile.BadZipFile, KeyError, ValueError, OSError, IndexError) as error:
        raise PriceListError(
            f"{name}: not a workbook that can be read ({error}); save it as XLSX once more"
        ) from None
