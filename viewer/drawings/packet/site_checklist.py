"""What to tick before any trim goes on, and the cautions: the page that is read first on site."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.layout import Layout

from ...display.order import runs_in_order
from ..ink.drawing import Area, Drawing, Item, Stroke, Words
from ..ink.letters import wrapped
from ..ink.shapes import lines, rectangle
from ..ink.style import BODY, INK, LARGE, LINE, WASH
from ..paper.flow import Block, Column, flow, heading, kept, space, table
from ..paper.page import Imprint, Paper, body_of, framed

CAUTIONS = (
    "Falls: from 6 ft up everybody is protected from falling (OSHA 29 CFR 1926.501); an anchor holds 5,000 lb for each "
    "person tied to it (1926.502). Above all at the peak and at the eaves.",
    "Ladders: footed, tied and on firm ground; three points of contact; no long metal carried up one.",
    "Power lines: found before anything is lifted; long metal stays well clear, on the ground too.",
    "Edges: cut metal is sharp. Gloves, sleeves and eye protection; offcuts go into a bin, not over the edge.",
    "Wind and wet: a length of trim is a sail, and painted metal is slippery with dew, frost or dust.",
    "Figures for wind and structure are advice. The local code, the metal's maker and licensed practice decide.",
)
"""What can hurt people, on the page that is carried to the roof. Source: OSHA 29 CFR 1926.501, .502 (pub2)."""


def before(layout: Layout, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return the list to tick before trim goes on, with a line to write each edge's measured length."""
    box = body_of(paper)
    pages = flow(_blocks(layout, box.width), box)
    title = "Before trim goes on"
    return [
        framed(title if number == 1 else f"{title}, continued", items, paper, imprint, "Tick, date and sign")
        for number, items in enumerate(pages, 1)
    ]


def _blocks(layout: Layout, width: float) -> Iterator[Block]:
    yield _cautions(width)
    yield space(0.06)
    for title, points in _lists(layout):
        yield heading(title, BODY * 1.1)
        for point in points:
            yield _tick(point, width)
    yield _signature(width)
    yield space(0.1)
    show = layout.scene.tape
    columns = (
        Column("Edge", 2.2, bold=True),
        Column("Run", 0.5),
        Column("Drawn", 1, right=True),
        Column("    Measured", 1.6),
        Column("Straight and sound", 1.6),
    )
    codes = {run.name: run.code for run in layout.runs}
    rows = [
        (edge.name, codes.get(edge.name, "bare"), show(edge.length), "", "") for edge in layout.roof.edges
    ]
    yield from kept([heading("Each edge, measured on the roof", BODY * 1.1), *table(columns, rows, width)])


def _lists(layout: Layout) -> Iterator[tuple[str, tuple[str, ...]]]:
    scene = layout.scene
    yield (
        "Edges of the deck",
        (
            "Nothing stands proud where trim will sit: nails, screws and staples are driven home or drawn.",
            "Every edge is straight and sound: a string along it shows no bow or dip, and soft deck is replaced.",
            "Where a measured length differs from the drawn one, nothing is cut for that edge until it is settled.",
        ),
    )
    yield (
        "Underlayment",
        (
            "It is on, whole and dry. Common practice, no source: at the eaves it ends on top of the trim, at the "
            "rakes it ends under it. Its maker and the local code decide.",
        ),
    )
    yield (
        "Metal and tools",
        (
            f"Trim and panels agree with the shopping list: {scene.metal.kind} "
            f"{scene.tape.fine(scene.metal.thickness)}, color, profiles, lengths.",
            f"Screws are of {scene.screws.kind}; sealant suits the metal and its paint.",
            "At hand: tape, square, scriber, snips that cut left and right, folding pliers, driver and bits.",
            "The bar on the full-size templates measures true before one is used.",
        ),
    )
    yield (
        "Order of setting",
        tuple(_order(layout)),
    )


def _order(layout: Layout) -> Iterator[str]:
    """Yield what is set one after another, a run or the panels of a face at a time."""
    yield "What lies under goes on first: the upslope piece over the downslope one, and level laps away from the wind."
    for steps in runs_in_order(layout):
        titles = [str(step.title) for step in steps]
        yield titles[0] if steps[0].kind == "panels" else f"{steps[0].place}: {', '.join(titles)}"


def _tick(text: str, width: float) -> Block:
    texts = wrapped(text, BODY, width - 0.3)
    box = rectangle(0.02, -0.175, 0.16, -0.035)
    items: list[Item] = [
        Stroke(box, 0.012, INK, closed=True, name="tick"),
        *lines(texts, (0.3, -0.035), BODY),
    ]
    return Block(BODY * LINE * len(texts) + 0.045, tuple(items))


def _cautions(width: float) -> Block:
    items: list[Item] = []
    y = -0.38
    for caution in CAUTIONS:
        name, _, rest = caution.partition(": ")
        if not rest or len(name) > 20:
            name, rest = "Limits", caution
        texts = wrapped(rest[0].upper() + rest[1:], BODY, width - 1.45)
        items.append(Words(name, (0.15, y - BODY * 0.95), BODY, bold=True, color=INK, name="caution"))
        items += lines(texts, (1.25, y), BODY)
        y -= BODY * LINE * len(texts) + 0.03
    ring = rectangle(0.0, y - 0.06, width, 0.0)
    return Block(
        -y + 0.1,
        (
            Area((ring,), WASH, "cautions"),
            Stroke(ring, 0.025, INK, closed=True, name="cautions"),
            Words("Cautions", (0.15, -0.26), LARGE, bold=True, color=INK, name="cautions"),
            *items,
        ),
    )


def _signature(width: float) -> Block:
    third = (width - 0.6) / 3
    items: list[Item] = []
    for k, name in enumerate(("Checked by", "Date", "Tie-off checked by")):
        x = k * (third + 0.3)
        items.append(Stroke(((x, -0.3), (x + third, -0.3)), 0.01, INK, name="line"))
        items.append(Words(name, (x, -0.44), 8 / 72, color=INK, name="signature"))
    return Block(0.5, tuple(items))
