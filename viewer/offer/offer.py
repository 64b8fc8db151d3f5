"""An offer: quantities with the shop's prices, line by line, and what they come to; exact in decimals."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

from trimwright.model.message import Message

from .price_list import Price, PriceList
from .quantities import PERCENTAGES, Group, PricedQuantity

CENT = Decimal("0.01")
WHOLE = ("each",)
"""Units that nothing can be bought a part of."""


@dataclass(frozen=True, slots=True)
class OfferLine:
    """One line.

    Attributes:
        item: The price list's name of it.
        words: What it is for.
        group: Which part of the offer it belongs to.
        quantity: How much, waste included: to a hundredth, a half goes up; whole where a part cannot be bought.
        unit: Of the quantity.
        price: Of one unit.
        amount: Quantity times price, to the cent; a half goes up.
    """

    item: str
    words: Message
    group: Group
    quantity: Decimal
    unit: str
    price: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True)
class Unpriced:
    """What has no price: it is in no sum.

    Attributes:
        quantity: What it is.
        listed: Units in which the list does have a price of it, none of which it is counted in.
    """

    quantity: PricedQuantity
    listed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Offer:
    """What a roof comes to.

    Attributes:
        lines: What has a price.
        unpriced: What has none.
        lines_total: Sum of the lines.
        added_rate: The shop's markup or margin, percent; None where the list says nothing.
        added: What comes on top of the lines by it.
        tax_rate: Percent; None where the list says nothing.
        tax: On lines and what is added.
    """

    lines: tuple[OfferLine, ...]
    unpriced: tuple[Unpriced, ...]
    lines_total: Decimal
    added_rate: Decimal | None
    added: Decimal
    tax_rate: Decimal | None
    tax: Decimal

    @property
    def total(self) -> Decimal:
        """All of it."""
        return self.lines_total + self.added + self.tax


def offer_of(quantities: Sequence[PricedQuantity], prices: PriceList | None) -> Offer:
    """Return what ``quantities`` come to; without a price list nothing has a price.

    A quantity takes the first of its names that the list knows, in each unit that the list prices it in: a
    profile priced by the foot and by the length costs both.
    """
    lines: list[OfferLine] = []
    unpriced: list[Unpriced] = []
    for quantity in quantities:
        own = list(_lines(quantity, prices)) if prices is not None else []
        lines += own
        if not own:
            rows = [price for item in quantity.items for price in (prices.of(item) if prices else ())]
            unpriced.append(Unpriced(quantity, tuple(price.unit for price in rows)))
    total = sum((line.amount for line in lines), Decimal(0))
    markup, margin, tax = (_share(prices, item) for item in PERCENTAGES)
    if margin is not None:
        added = _cents(total / (1 - margin / 100) - total)
    else:
        added = _cents(total * (markup or Decimal(0)) / 100)
    return Offer(
        lines=tuple(lines),
        unpriced=tuple(unpriced),
        lines_total=total,
        added_rate=markup if margin is None else margin,
        added=added,
        tax_rate=tax,
        tax=_cents((total + added) * (tax or Decimal(0)) / 100),
    )


def _lines(quantity: PricedQuantity, prices: PriceList) -> Iterable[OfferLine]:
    """Return the lines of one quantity: under its first name that the list has a row for."""
    for item in quantity.items:
        rows = [price for price in prices.of(item) if price.unit in quantity.measures]
        if rows:
            return [_line(quantity, price) for price in rows]
    return []


def _line(quantity: PricedQuantity, price: Price) -> OfferLine:
    much = quantity.measures[price.unit] * (1 + price.waste / 100)
    if price.unit in WHOLE:
        much = much.to_integral_value(ROUND_CEILING)
    much = _cents(much)
    return OfferLine(
        price.item, quantity.words, quantity.group, much, price.unit, price.price, _cents(much * price.price)
    )


def _share(prices: PriceList | None, item: str) -> Decimal | None:
    rows = prices.of(item) if prices is not None else ()
    return rows[0].price if rows else None


def _cents(value: Decimal) -> Decimal:
    """Return a value to a hundredth; a half goes up."""
    return value.quantize(CENT, ROUND_HALF_UP)
