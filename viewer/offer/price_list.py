"""A shop's price list: rows of item, unit, price and waste, from a CSV or XLSX file that the shop owns."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.message import Listed, Message, message
from trimwright.model.scene.rows import columns_in, filled, in_line, read_rows
from trimwright.model.scene.schema import Scene

from .quantities import MEASURES, PERCENTAGES

COLUMNS = ("item", "unit", "price", "waste")
"""What the first row of a list says; ``waste`` may be left out."""

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


def list_for(scene: Scene, folder: Path, prices: Path | None = None) -> PriceList | None:
    """Return the price list that a scene is priced by; None where it names none.

    Args:
        scene: The scene.
        folder: Where the files are that it names.
        prices: Price list in the place of the shop's own.

    Raises:
        PriceListError: It cannot be read.
    """
    listed = prices or (folder / scene.shop.prices if scene.shop.prices else None)
    return read_price_list(listed) if listed else None


def read_price_list(path: Path) -> PriceList:
    """Return the price list in a CSV (UTF-8) or XLSX file.

    Raises:
        PriceListError: The file cannot be read, or rows of it; every problem in a line of its own.
    """
    return price_list_of(read_rows(path, PriceListError), path.name)


def price_list_of(rows: Iterable[Sequence[object]], name: str) -> PriceList:
    """Return the price list in rows of cells, the headings first.

    Raises:
        PriceListError: Headings are missing, or rows cannot be understood; every problem in a line of its own.
    """
    listed = filled(rows)
    first = next(listed, None)
    if first is None:
        told = message("empty; the first row says {columns}", columns=Listed(COLUMNS, "comma"))
        raise PriceListError(Problem(told, file=name))
    places = columns_in(first[1], COLUMNS, needed=3)
    if isinstance(places, Message):
        raise PriceListError(Problem(in_line(first[0], places), file=name))
    prices: dict[tuple[str, str], Price] = {}
    problems: list[Message] = []
    for number, row in listed:
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
        problems += [in_line(number, problem) for problem in wrong]
    shares = [item for item in ("margin", "markup") if (item, "%") in prices]
    if len(shares) > 1:
        problems.append(message("margin and markup both stand here; keep the one that the shop reckons with"))
    if problems:
        raise PriceListError(*(Problem(problem, file=name) for problem in problems))
    return PriceList(prices)


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
