"""The lists of a takeoff: what to buy, what comes out of what, and what it was counted with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trimwright.model.layout import Layout
from trimwright.model.message import Fine, Length, Message, counted, message
from trimwright.model.metals import METAL_WORDS
from trimwright.model.takeoff.record import Takeoff, Trim
from trimwright.model.units import Tape

from ..display.paints import color_told, is_bare
from ..report.words import KILOGRAM, amount
from ..words.key_names import SEAMS
from ..words.speaker import Speaker
from .cleats import cleat_list
from .closing import closure_list, sealed_list, vent_list
from .panel_schedule import panel_schedule
from .record import Cell, Kind, List, ListField

BY_SPREADSHEET = ("cutting", "counted-with")
"""Keys of the lists that are too long to be read anywhere else."""


def lists_of(layout: Layout, takeoff: Takeoff) -> tuple[List, ...]:
    """Return the lists of a takeoff, those left out that would be empty."""
    lists = (
        _trim(layout, takeoff),
        _cutting(takeoff),
        _panels(layout, takeoff),
        panel_schedule(layout),
        closure_list(layout, takeoff),
        sealed_list(layout),
        vent_list(layout),
        cleat_list(layout),
        _coils(takeoff),
        _small_parts(takeoff, layout.scene.tape),
        _offcuts(takeoff),
        _counted_with(takeoff, layout.scene.tape),
    )
    return tuple(each for each in lists if each.rows)


def noted(each: List, say: Speaker) -> str:
    """Return what stands below a list; empty for nothing."""
    return " ".join(_begun(say(note)) for note in each.notes)


def _begun(sentence: str) -> str:
    """Return a sentence with a capital at its beginning, where a name may stand."""
    return sentence[:1].upper() + sentence[1:]


def text_of(cell: Cell, kind: Kind, say: Speaker) -> str:
    """Return a cell as a person reads it."""
    if cell is None or isinstance(cell, str):
        return cell or ""
    if isinstance(cell, Message):
        return say(cell)
    match kind:
        case "length":
            return say.tape(cell)
        case "share":
            return f"{cell:.1%}"
        case "weight":
            return f"{cell:.1f} lb" if say.tape.style == "feet" else f"{cell * KILOGRAM:.1f} kg"
        case "money":
            return f"{cell:,.2f}"
        case "count":
            return f"{cell:.0f}"
        case _:
            return f"{cell:g}"


def proofs(takeoff: Takeoff) -> tuple[Message, ...]:
    """Return for each cutting plan how good it is known to be, in one line."""
    return tuple(_proof(trim) for trim in takeoff.cut)


def _proof(trim: Trim) -> Message:
    return counted(
        "{trim}: {count} length bought, {waste} offcuts and kerf; {proof}",
        "{trim}: {count} lengths bought, {waste} offcuts and kerf; {proof}",
        count=sum(count for _, count in trim.counts),
        trim=trim.label,
        waste=f"{trim.plan.waste:.1%}",
        proof=trim.plan.proof,
    )


def _trim(layout: Layout, takeoff: Takeoff) -> List:
    """Return trim by color and profile, with the lengths to buy."""
    scene, metal = layout.scene, layout.scene.metal
    rows: list[tuple[Cell, ...]] = []
    for trim in takeoff.cut:
        prices = {bought.length: bought.price for bought in trim.plan.lengths if not bought.from_hand}
        color = color_told(trim.color, scene, is_bare(scene))
        weights = trim.weight / trim.plan.taken if trim.plan.taken else 0.0
        for length, count in trim.counts:
            price = prices[length]
            cost = None if price is None else price * count
            weight = weights * length * count
            rows.append(
                (
                    trim.label,
                    color,
                    ", ".join(trim.runs),
                    trim.width,
                    count,
                    length,
                    weight,
                    price,
                    cost,
                )
            )
    fields: tuple[ListField, ...] = (
        ListField(message("Trim"), share=1.7),
        ListField(message("Color"), share=1.5),
        ListField(message("For runs"), share=1.7),
        ListField(message("Strip width"), "length", 1.1),
        ListField(message("Buy"), "count", 0.6),
        ListField(message("Length"), "length", 0.9),
        ListField(message("Weight"), "weight", 0.9),
        ListField(message("Price each"), "money", 0.9),
        ListField(message("Price"), "money", 0.8),
    )
    if all(row[-1] is None for row in rows):
        fields, rows = fields[:-2], [row[:-2] for row in rows]
    note = message(
        "{metal}, {thickness} thick. Colors are as on a screen; match them to a sample.",
        metal=METAL_WORDS[metal.kind],
        thickness=Fine(metal.thickness),
    )
    return List("trim-to-buy", message("trim to buy"), fields, tuple(rows), (note,))


def _cutting(takeoff: Takeoff) -> List:
    rows: list[tuple[Cell, ...]] = []
    for trim in takeoff.cut:
        for number, bought in enumerate(trim.plan.lengths, 1):
            origin = message("on hand") if bought.from_hand else message("buy")
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
        ListField(message("Trim"), share=1.8),
        ListField(message("No."), "count", 0.5),
        ListField(message("From"), share=0.8),
        ListField(message("Stock"), "length", 0.9),
        ListField(message("Piece"), share=0.8),
        ListField(message("Begins at"), "length", 1.0),
        ListField(message("Length"), "length", 1.1),
        ListField(message("Offcut"), "length", 1.1),
    )
    notes = tuple(message("{proof}.", proof=proof) for proof in proofs(takeoff))
    return List("cutting", message("cutting"), fields, tuple(rows), notes)


def lengths_list(layout: Layout, takeoff: Takeoff) -> List:
    """Return a row for each length taken, with the pieces that come out of it."""
    show = layout.scene.tape
    rows = tuple(
        (
            trim.label,
            number,
            message("on hand") if bought.from_hand else message("buy"),
            bought.length,
            ", ".join(f"{cut.mark} {show(cut.length)}" for cut in bought.cuts),
            bought.offcut,
        )
        for trim in takeoff.cut
        for number, bought in enumerate(trim.plan.lengths, 1)
    )
    fields = (
        ListField(message("Trim")),
        ListField(message("No."), "count"),
        ListField(message("From")),
        ListField(message("Stock"), "length"),
        ListField(message("Pieces")),
        ListField(message("Offcut"), "length"),
    )
    return List("lengths", message("what comes out of each length"), fields, rows)


def _panels(layout: Layout, takeoff: Takeoff) -> List:
    rows = tuple((panel.count, panel.width, panel.length) for panel in takeoff.panels)
    fields = (
        ListField(message("Panels"), "count"),
        ListField(message("Width"), "length"),
        ListField(message("Length"), "length"),
    )
    panels = layout.scene.panels
    note = message(
        "{kind}, seams every {cover} and {seam} high, color {color}. Flat sheets, every fold allowed for; those at "
        "hips are cut to the slope.",
        kind=SEAMS[panels.seam_kind],
        cover=Length(panels.cover),
        seam=Length(panels.seam),
        color=color_told(layout.scene.colors.panels, layout.scene, is_bare(layout.scene)),
    )
    order = message(
        "Widths and lengths to order are rounded up; panel by panel they are to the nearest mark."
    )
    return List("panels", message("panels"), fields, rows, (note, order))


COILED = {
    "panel": message("panels"),
    "closure": message("closures"),
    "perforated closure": message("closures of perforated sheet"),
}
"""What comes out of coils, in words."""


def _coils(takeoff: Takeoff) -> List:
    """Return what panels and closures take of coils, by the foot and by weight."""
    rows = tuple((COILED[coil.what], coil.width, coil.length, coil.weight) for coil in takeoff.coils)
    fields = (
        ListField(message("Coil for"), share=2),
        ListField(message("Width"), "length"),
        ListField(message("Length"), "length"),
        ListField(message("Weight"), "weight"),
    )
    note = message(
        "Lengths are those of the flat sheets, without spare and without the coil's ends. A ripped panel takes as much "
        "of the coil as a whole one."
    )
    return List("coil", message("coil"), fields, rows, (note,))


def _small_parts(takeoff: Takeoff, show: Tape) -> List:
    rows: list[tuple[Cell, ...]] = [
        (supply.what, supply.needed, supply.buy, "") for supply in takeoff.small if supply.needed
    ]
    if takeoff.sealant.bead:
        bead = message("{length} of bead", length=show.rough(takeoff.sealant.bead))
        rows.append((message("sealant, tubes"), None, takeoff.sealant.tubes, bead))
    fields = (
        ListField(message("What"), share=2),
        ListField(message("Needed"), "count"),
        ListField(message("Buy"), "count"),
        ListField(message("Remarks"), share=2),
    )
    return List("small-parts", message("small parts"), fields, tuple(rows))


def _offcuts(takeoff: Takeoff) -> List:
    rows = tuple((trim.label, length) for trim in takeoff.cut for length in trim.offcuts)
    note = message("Long enough to serve another roof; shorter ones are scrap.")
    return List(
        "offcuts",
        message("offcuts"),
        (ListField(message("Trim")), ListField(message("Length"), "length")),
        rows,
        (note,),
    )


def _counted_with(takeoff: Takeoff, show: Tape) -> List:
    rows = tuple(
        (
            fact.name,
            f"{fact.value:.0%}" if fact.unit == "1" else amount(fact.value, fact.unit, show),
            fact.source.whole,
            fact.source.trust,
        )
        for fact in takeoff.facts
    )
    fields = (
        ListField(message("Counted with"), share=3),
        ListField(message("Value"), share=1.0),
        ListField(message("Source"), share=3),
        ListField(message("Trust"), share=0.8),
    )
    return List("counted-with", message("counted with"), fields, rows)


def texts(each: List, say: Speaker) -> Iterator[list[str]]:
    """Yield the rows of a list as a person reads them."""
    for row in each.rows:
        yield [text_of(cell, field.kind, say) for cell, field in zip(row, each.fields, strict=True)]


def spread_out(each: List, say: Speaker) -> tuple[list[str], list[Sequence[str | float | None]]]:
    """Return headings and rows for a spreadsheet: each length as the tape reads it, and beside it as a number."""
    feet = say.tape.style == "feet"
    names: list[str] = []
    for field in each.fields:
        name = say(field.name)
        names += _headed(name, field.kind, feet)
    rows: list[Sequence[str | float | None]] = []
    for row in each.rows:
        cells: list[str | float | None] = []
        for cell, field in zip(row, each.fields, strict=True):
            if isinstance(cell, Message):
                cells.append(say(cell))
            elif field.kind == "length":
                number = None if cell is None else round(float(cell) * (1 if feet else 25.4), 4)
                cells += [text_of(cell, "length", say), number]
            elif field.kind == "weight" and cell is not None and not feet:
                cells.append(round(float(cell) * KILOGRAM, 4))
            else:
                cells.append(round(cell, 4) if isinstance(cell, float) else cell)
        rows.append(cells)
    return names, rows


def _headed(name: str, kind: Kind, feet: bool) -> list[str]:
    """Return the headings of a column, with the units of its numbers."""
    if kind == "length":
        return [name, f"{name}, in" if feet else f"{name}, mm"]
    if kind == "weight":
        return [f"{name}, lb" if feet else f"{name}, kg"]
    return [name]
