"""Quantities: everything of a roof that a shop may put a price on, in each unit that it may be priced in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import groupby
from typing import Literal

from trimwright.model.layout import Layout
from trimwright.model.message import Message, message
from trimwright.model.takeoff.record import Takeoff

from ..display.gutters import downspouts_of, gutters_of
from ..display.trim_looks import LOOKS

MEASURES = ("each", "100", "ft", "m", "sq ft", "m2", "lb", "kg")
"""Units of a price list; ``100`` is a hundred of what is counted."""

PERCENTAGES = ("markup", "margin", "tax")
"""Items that are a share of the sum: ``markup`` on the lines, or ``margin`` of the price; ``tax`` on top of both."""

KINDLESS = ("sealant",)
"""What is no metal."""

FOOT, METER, SQUARE_FOOT, SQUARE_METER, KILOGRAM = 12.0, 1000 / 25.4, 144.0, (1000 / 25.4) ** 2, 0.45359237

Group = Literal["metal", "fastening", "labor"]


@dataclass(frozen=True, slots=True)
class PricedQuantity:
    """So much of one thing.

    Attributes:
        items: Names that a price list may have it under, the one that says most first.
        words: What a customer reads.
        group: Which part of the offer it belongs to.
        measures: How much it is, by unit; exact.
        counted: It comes in whole pieces.
    """

    items: tuple[str, ...]
    words: Message
    group: Group
    measures: Mapping[str, Decimal]


def quantities_of(layout: Layout, takeoff: Takeoff, planned: str | None = None) -> tuple[PricedQuantity, ...]:
    """Return everything that a price can be put on: metal, what fastens and seals it, and the work.

    Metal may stand in a list with its kind before its name (``copper trim``) or without. A row without a kind is
    for the metal that the roof is planned in: another one is never priced by it.

    Args:
        layout: The layout.
        takeoff: What to buy for it.
        planned: Kind of metal that the roof is planned in; the layout's own when left out.
    """
    kind = layout.scene.metal.kind
    plain = planned in (None, kind)
    quantities = (*_metal(layout, takeoff), *_fastening(takeoff), *_labor(layout))
    return tuple(
        quantity
        if quantity.group == "labor"
        else replace(quantity, items=_with_kind(quantity.items, kind, plain))
        for quantity in quantities
    )


def _with_kind(items: tuple[str, ...], kind: str, plain: bool) -> tuple[str, ...]:
    """Return the names of metal goods with their metal's kind, and where ``plain`` without it too."""
    if items[0] in KINDLESS:
        return items
    return (*(f"{kind} {item}" for item in items), *(items if plain else ()))


def _metal(layout: Layout, takeoff: Takeoff) -> Iterator[PricedQuantity]:
    """Yield trim and continuous cleats by how they are formed, panels and closures."""
    for trim in takeoff.trim:
        net = sum(part.length for part in layout.parts if part.run.code in trim.runs)
        yield PricedQuantity(
            (trim.profile.lower(), "trim"),
            message("Trim: {label}", label=trim.label),
            "metal",
            _lengths(net) | _weights(trim.weight) | _counts(len(trim.plan.lengths)),
        )
    for strip in takeoff.strips:
        yield PricedQuantity(
            ("continuous cleats", "trim"),
            message("{label}", label=strip.label),
            "metal",
            _lengths(strip.plan.used) | _weights(strip.weight) | _counts(len(strip.plan.lengths)),
        )
    if takeoff.panels:
        count = sum(panel.count for panel in takeoff.panels)
        length = sum(panel.length * panel.count for panel in takeoff.panels)
        area = sum(panel.length * panel.width * panel.count for panel in takeoff.panels)
        yield PricedQuantity(
            ("panels",),
            message("Standing-seam panels"),
            "metal",
            _areas(area) | _lengths(length) | _counts(count),
        )
    closures = sum(each.length * each.count for each in takeoff.closures)
    if closures:
        count = sum(each.count for each in takeoff.closures)
        yield PricedQuantity(("closures",), message("Closures"), "metal", _lengths(closures) | _counts(count))
    yield from _gutters(layout)


def _gutters(layout: Layout) -> Iterator[PricedQuantity]:
    """Yield the gutters of a house that has some, and their downspouts."""
    roof, house = layout.roof, layout.scene.house
    length = sum(gutter.edge.length for gutter in gutters_of(roof, house))
    if length:
        spouts = downspouts_of(roof, house)
        down = sum(spout.length for spout in spouts)
        yield PricedQuantity(("gutter",), message("Gutter"), "metal", _lengths(length))
        yield PricedQuantity(
            ("downspouts",), message("Downspouts"), "metal", _counts(len(spouts)) | _lengths(down)
        )


def _fastening(takeoff: Takeoff) -> Iterator[PricedQuantity]:
    """Yield screws, cleats and sealant."""
    small = (
        (("screws",), message("Screws"), takeoff.screws.buy),
        (("cleats",), message("Cleats for the panels' seams"), takeoff.cleats.buy),
        (("sealant",), message("Tubes of sealant"), takeoff.sealant.tubes),
    )
    for items, words, count in small:
        if count:
            yield PricedQuantity(items, words, "fastening", _counts(count))


def _labor(layout: Layout) -> Iterator[PricedQuantity]:
    """Yield the work: setting each kind of trim, making each kind of corner, laying the panels."""
    runs = sorted(layout.runs, key=lambda run: run.trim)
    for kind, own in groupby(runs, key=lambda run: run.trim):
        length = sum(run.length for run in own)
        yield PricedQuantity(
            (f"labor {kind}", "labor trim"),
            message("Setting {kind} trim", kind=LOOKS[kind].name),
            "labor",
            _lengths(length),
        )
    corners = {
        (end.kind, frozenset((part.mark, *end.others)))
        for part in layout.parts
        for end in part.ends
        if end.lap is None and end.others
    }
    for joint, group in groupby(sorted((kind for kind, _ in corners), key=lambda kind: kind.name)):
        yield PricedQuantity(
            (f"labor {joint.name}", "labor corner"),
            message("Making corners: {kind}", kind=joint.words),
            "labor",
            _counts(len(list(group))),
        )
    if layout.panels:
        area = sum(face.area for face in layout.roof.faces)
        yield PricedQuantity(("labor panels",), message("Laying panels"), "labor", _areas(area))


def _exact(value: float) -> Decimal:
    """Return a number as it is held: exactly."""
    return Decimal(value)


def _lengths(inches: float) -> dict[str, Decimal]:
    return {"ft": _exact(inches / FOOT), "m": _exact(inches / METER)}


def _areas(square_inches: float) -> dict[str, Decimal]:
    return {"sq ft": _exact(square_inches / SQUARE_FOOT), "m2": _exact(square_inches / SQUARE_METER)}


def _weights(pounds: float) -> dict[str, Decimal]:
    return {"lb": _exact(pounds), "kg": _exact(pounds * KILOGRAM)}


def _counts(count: int) -> dict[str, Decimal]:
    return {"each": Decimal(count), "100": Decimal(count) / 100}
