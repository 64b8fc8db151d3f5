"""The lists of a takeoff: what to buy, what comes out of what, and what it was counted with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from trimwright.model.layout import Layout
from trimwright.model.takeoff.record import Takeoff, Trim
from trimwright.model.units import Tape

Kind = Literal["text", "count", "length", "share", "weight", "money", "number"]
Cell = str | float | None


@dataclass(frozen=True, slots=True)
class Field:
    """A column of a list.

    Attributes:
        name: Its heading.
        kind: What its cells are: lengths are in inches, shares of 1, weights in pounds.
        share: Its width on paper, as a share of the widths of all.
    """

    name: str
    kind: Kind = "text"
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class List:
    """A list.

    Attributes:
        name: What it is called; also the name of its file.
        fields: Its columns.
        rows: Its rows, a cell for each column; None where there is nothing to say.
        note: A sentence below it; empty for none.
    """

    name: str
    fields: tuple[Field, ...]
    rows: tuple[tuple[Cell, ...], ...]
    note: str = ""


def lists_of(layout: Layout, takeoff: Takeoff) -> tuple[List, ...]:
    """Return the lists of a takeoff, those left out that would be empty."""
    lists = (
        _trim(layout, takeoff),
        _cutting(takeoff),
        _panels(layout, takeoff),
        _closures(takeoff),
        _small_parts(takeoff, layout.scene.tape),
        _offcuts(takeoff),
        _counted_with(takeoff),
    )
    return tuple(each for each in lists if each.rows)


def text_of(cell: Cell, kind: Kind, show: Tape) -> str:
    """Return a cell as a person reads it."""
    if cell is None or isinstance(cell, str):
        return cell or ""
    match kind:
        case "length":
            return show(cell)
        case "share":
            return f"{cell:.1%}"
        case "weight":
            return f"{cell:.1f} lb" if show.style == "feet" else f"{cell * 0.45359237:.1f} kg"
        case "money":
            return f"{cell:,.2f}"
        case "count":
            return f"{cell:.0f}"
        case _:
            return f"{cell:g}"


def proofs(takeoff: Takeoff) -> tuple[str, ...]:
    """Return one line for each cutting plan that says how good it is known to be."""
    return tuple(f"{trim.label}: {_comes_to(trim)}; {trim.plan.proof}" for trim in takeoff.trim)


def _comes_to(trim: Trim) -> str:
    bought = sum(count for _, count in trim.counts)
    lengths = f"{bought} length{'' if bought == 1 else 's'} bought"
    return f"{lengths}, {trim.plan.waste:.1%} offcuts and kerf"


def _trim(layout: Layout, takeoff: Takeoff) -> List:
    """Return trim by color and profile, with the lengths to buy."""
    metal = layout.scene.metal
    rows: list[tuple[Cell, ...]] = []
    for trim in takeoff.trim:
        prices = {bought.length: bought.price for bought in trim.plan.lengths if not bought.from_hand}
        weights = trim.weight / trim.plan.taken if trim.plan.taken else 0.0
        for length, count in trim.counts:
            price = prices[length]
            cost = None if price is None else price * count
            weight = weights * length * count
            rows.append(
                (trim.label, trim.color, ", ".join(trim.runs), trim.width, count, length, weight, price, cost)
            )
    fields: tuple[Field, ...] = (
        Field("Trim", share=1.7),
        Field("Color", share=0.9),
        Field("For runs", share=1.7),
        Field("Strip width", "length", 1.1),
        Field("Buy", "count", 0.6),
        Field("Length", "length", 0.9),
        Field("Weight", "weight", 0.9),
        Field("Price each", "money", 0.9),
        Field("Price", "money", 0.8),
    )
    if all(row[-1] is None for row in rows):
        fields, rows = fields[:-2], [row[:-2] for row in rows]
    thickness = layout.scene.tape.fine(metal.thickness)
    note = f"{metal.kind.capitalize()}, {thickness} thick. Colors are as on a screen; match them to a sample."
    return List("trim to buy", fields, tuple(rows), note)


def _cutting(takeoff: Takeoff) -> List:
    rows: list[tuple[Cell, ...]] = []
    for trim in takeoff.trim:
        for number, bought in enumerate(trim.plan.lengths, 1):
            origin = "on hand" if bought.from_hand else "buy"
            for place, cut in enumerate(bought.cuts):
                last = place == len(bought.cuts) - 1
                rows.append(
                    (
                        trim.label,
                        number,
                        origin,
                        bought.length,
                        cut.mark,
                        cut.start,
                        cut.length,
                        bought.offcut if last else None,
                    )
                )
    fields = (
        Field("Trim", share=1.8),
        Field("No.", "count", 0.5),
        Field("From", share=0.8),
        Field("Stock", "length", 0.9),
        Field("Piece", share=0.8),
        Field("Begins at", "length", 1.0),
        Field("Length", "length", 1.1),
        Field("Offcut", "length", 1.1),
    )
    return List("cutting", fields, tuple(rows), " ".join(f"{line}." for line in proofs(takeoff)))


def lengths_list(layout: Layout, takeoff: Takeoff) -> List:
    """Return a row for each length taken, with the pieces that come out of it."""
    show = layout.scene.tape
    rows = tuple(
        (
            trim.label,
            number,
            "on hand" if bought.from_hand else "buy",
            bought.length,
            ", ".join(f"{cut.mark} {show(cut.length)}" for cut in bought.cuts),
            bought.offcut,
        )
        for trim in takeoff.trim
        for number, bought in enumerate(trim.plan.lengths, 1)
    )
    fields = (
        Field("Trim"),
        Field("No.", "count"),
        Field("From"),
        Field("Stock", "length"),
        Field("Pieces"),
        Field("Offcut", "length"),
    )
    return List("what comes out of each length", fields, rows)


def _panels(layout: Layout, takeoff: Takeoff) -> List:
    rows = tuple((panel.count, panel.width, panel.length) for panel in takeoff.panels)
    fields = (Field("Panels", "count"), Field("Covers", "length"), Field("Length", "length"))
    note = (
        f"{layout.scene.panels.seam_kind.capitalize()}, seams every {layout.scene.tape(layout.scene.panels.cover)} "
        f"and {layout.scene.tape(layout.scene.panels.seam)} high, color {layout.scene.colors.panels}. Longest "
        "side; those at hips are cut to the slope, ripped ones to their width."
    )
    return List("panels", fields, rows, note)


def _closures(takeoff: Takeoff) -> List:
    rows = tuple((closure.count, closure.length) for closure in takeoff.closures)
    return List("closures", (Field("Closures", "count"), Field("Length", "length")), rows)


def _small_parts(takeoff: Takeoff, show: Tape) -> List:
    rows: list[tuple[Cell, ...]] = [
        (supply.what, supply.needed, supply.buy, "")
        for supply in (takeoff.screws, takeoff.cleats)
        if supply.needed
    ]
    if takeoff.sealant.bead:
        bead = f"{show.rough(takeoff.sealant.bead)} of bead"
        rows.append(("sealant, tubes", None, takeoff.sealant.tubes, bead))
    fields = (
        Field("What", share=2),
        Field("Needed", "count"),
        Field("Buy", "count"),
        Field("Remarks", share=2),
    )
    return List("small parts", fields, tuple(rows))


def _offcuts(takeoff: Takeoff) -> List:
    rows = tuple((trim.label, length) for trim in takeoff.trim for length in trim.offcuts)
    note = "Long enough to serve another roof; shorter ones are scrap."
    return List("offcuts", (Field("Trim"), Field("Length", "length")), rows, note)


def _counted_with(takeoff: Takeoff) -> List:
    rows = tuple(
        (
            str(fact.name),
            f"{fact.value:.0%}" if fact.unit == "1" else f"{fact.value:g} {fact.unit}",
            str(fact.source.whole),
            fact.source.trust,
        )
        for fact in takeoff.facts
    )
    fields = (
        Field("Counted with", share=3),
        Field("Value", share=1.0),
        Field("Source", share=3),
        Field("Trust", share=0.8),
    )
    return List("counted with", fields, rows)


def texts(each: List, show: Tape) -> Iterator[list[str]]:
    """Yield the rows of a list as a person reads them."""
    for row in each.rows:
        yield [text_of(cell, field.kind, show) for cell, field in zip(row, each.fields, strict=True)]


def spread_out(each: List, show: Tape) -> tuple[list[str], list[Sequence[Cell]]]:
    """Return headings and rows for a spreadsheet: each length as the tape reads it, and beside it in inches."""
    names: list[str] = []
    for field in each.fields:
        names += [field.name, f"{field.name}, in"] if field.kind == "length" else [_unit(field)]
    rows: list[Sequence[Cell]] = []
    for row in each.rows:
        cells: list[Cell] = []
        for cell, field in zip(row, each.fields, strict=True):
            if field.kind == "length":
                cells += [text_of(cell, "length", show), None if cell is None else round(float(cell), 4)]
            else:
                cells.append(round(cell, 4) if isinstance(cell, float) else cell)
        rows.append(cells)
    return names, rows


def _unit(field: Field) -> str:
    return f"{field.name}, lb" if field.kind == "weight" else field.name
