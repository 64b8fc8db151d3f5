"""An offer as pages for a customer: the roof, what is done to it, what it comes to, and where to sign."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from PIL import Image

from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.message import Expanse, Fine, Length, Message, message
from trimwright.model.metals import METAL_WORDS

from ..drawings.ink.drawing import Drawing, Item, Picture, Stroke, Words
from ..drawings.ink.letters import wrapped
from ..drawings.ink.shapes import lines, rectangle
from ..drawings.ink.style import BODY, FAINT, INK, LARGE, LINE, SMALL, SOFT, TITLE
from ..drawings.paper.flow import Block, TableColumn, flow, heading, kept, paragraph, space, table
from ..drawings.paper.page import MARGIN, Room
from ..drawings.paper.sizes import PAPERS, Paper, paper_for
from ..report.terms import told_first
from ..report.words import totals
from ..words.roof_names import named
from ..words.speaker import Speaker, speaker_of
from .choice import Choice
from .quantities import Group

HEAD, FOOT = 0.34, 0.3
"""Room at the head and at the foot of a page, inches."""

TALLEST = 3.6
"""Of a picture, inches."""

GROUPS: dict[Group, Message] = {
    "metal": message("Metal"),
    "fastening": message("Fastening and sealing"),
    "labor": message("Work"),
}


@dataclass(frozen=True, slots=True)
class Sight:
    """A picture of the roof in one look, and what it is called."""

    file: Path
    name: str


def offer_pages(
    choices: Sequence[Choice], sights: Sequence[Sight], logo: Path | None, date: str
) -> list[Drawing]:
    """Return the pages of an offer.

    Args:
        choices: The scene as it is, and in each of its looks.
        sights: A picture for each of them, as far as there are any.
        logo: Picture file of the shop's logo.
        date: Of the offer.

    Raises:
        OSError: A picture cannot be read.
    """
    layout = choices[0].layout
    say = speaker_of(layout.scene)
    paper = paper_for(layout.scene.tape)
    box = _box(paper)
    blocks = [
        *_shop(layout, logo, date, box.width, say),
        *_sights(sights, box.width, say),
        *_scope(choices, box.width, say),
        *_prices(choices, box.width, say),
        *_checked(layout, box.width, say),
        *_terms(layout, box.width, say),
    ]
    pages = flow(blocks, box)
    title = say("Offer: {title}", title=layout.scene.title)
    return [
        _page(items, number, len(pages), title, paper, layout, say) for number, items in enumerate(pages, 1)
    ]


def _box(paper: Paper) -> Room:
    width, height = PAPERS[paper]
    return Room(MARGIN, MARGIN + FOOT, width - MARGIN, height - MARGIN - HEAD)


def _page(
    items: Sequence[Item], number: int, count: int, title: str, paper: Paper, layout: Layout, say: Speaker
) -> Drawing:
    """Return a page with its title at the head and its number at the foot."""
    width, height = PAPERS[paper]
    top, low = height - MARGIN - 0.1, MARGIN
    name = layout.scene.shop.name or ""
    around: list[Item] = [
        Words(title, (MARGIN, top), SMALL, color=SOFT, name="title"),
        Stroke(((MARGIN, top - 0.08), (width - MARGIN, top - 0.08)), 0.008, FAINT, name="rule"),
        Words(name, (MARGIN, low), SMALL, color=SOFT),
        Words(
            say("Page {number} of {count}", number=number, count=count),
            (width - MARGIN, low),
            SMALL,
            "end",
            color=SOFT,
            name="page",
        ),
    ]
    return Drawing(title, (width, height), (*around, *items))


def _shop(layout: Layout, logo: Path | None, date: str, width: float, say: Speaker) -> Iterator[Block]:
    """Yield who offers, and what."""
    shop, scene = layout.scene.shop, layout.scene
    told = [shop.name] if shop.name else []
    items: list[Item] = []
    y = 0.0
    if logo is not None:
        wide, high = _size(logo)
        scale = min(2.2 / wide, 0.7 / high)
        items.append(
            Picture(
                str(logo),
                (width - wide * scale, -high * scale),
                (wide * scale, high * scale),
                shop.name or "",
            )
        )
        y = -high * scale
    items += lines(told, (0.0, 0.0), LARGE, bold=True)
    items += lines(shop.contact, (0.0, -LARGE * LINE * len(told)), SMALL, color=SOFT)
    y = min(y, -LARGE * LINE * len(told) - SMALL * LINE * len(shop.contact))
    if items:
        yield Block(-y + 0.2, tuple(items))
    yield Block(
        TITLE * 1.6,
        (Words(say("Offer: {title}", title=scene.title), (0.0, -TITLE), TITLE, bold=True, color=INK),),
    )
    yield paragraph(say("Of {date}.", date=date), width, SMALL, color=SOFT)
    yield space(0.08)


def _sights(sights: Sequence[Sight], width: float, say: Speaker) -> Iterator[Block]:
    """Yield the pictures beside each other, two in a row."""
    for first in range(0, len(sights), 2):
        row = sights[first : first + 2]
        alone = len(sights) == 1
        room = width if alone else width / 2 - 0.08
        items: list[Item] = []
        height = 0.0
        for place, sight in enumerate(row):
            wide, high = _size(sight.file)
            scale = min(room / wide, TALLEST / high)
            size = (wide * scale, high * scale)
            left = place * (width / 2 + 0.08) + (room - size[0]) / 2
            name = sight.name or say("As planned")
            items += [
                Picture(str(sight.file), (left, -size[1]), size, name),
                Stroke(
                    rectangle(left, -size[1], left + size[0], 0.0), 0.008, FAINT, closed=True, name="frame"
                ),
            ]
            if not alone:
                items.append(Words(name, (left, -size[1] - 0.17), BODY, bold=True, color=INK, name="look"))
            height = max(height, size[1] + (0.0 if alone else 0.26))
        yield Block(height + 0.1, tuple(items))


def _scope(choices: Sequence[Choice], width: float, say: Speaker) -> Iterator[Block]:
    """Yield what is done, edge by edge and face by face; of what, for each look where they differ."""
    layout = choices[0].layout
    yield heading(say("What is done"))
    made = [_made_of(choice.layout) for choice in choices]
    if len(set(made)) == 1:
        yield paragraph(say(made[0]), width)
    else:
        for choice, one in zip(choices, made, strict=True):
            name = choice.name or say("As planned")
            yield paragraph(say("{look}: {made_of}", look=name, made_of=one), width)
    columns = (
        TableColumn(say("Edge"), 2.2, bold=True),
        TableColumn(say("Trim"), 1.4),
        TableColumn(say("Length"), 1.0, right=True),
    )
    rows = [
        (
            named(run.name, say),
            run.section.profile,
            say("{length}", length=Length(run.length)),
        )
        for run in layout.runs
    ]
    yield from table(columns, rows, width * 0.75)
    yield space(0.1)
    columns = (
        TableColumn(say("Face"), 2.2, bold=True),
        TableColumn(say("Area"), 1.2, right=True),
        TableColumn(say("Panels"), 1.0, right=True),
    )
    counts = [sum(panel.face == index for panel in layout.panels) for index in range(len(layout.roof.faces))]
    faces = [
        (named(face.name, say), say("{area}", area=Expanse(face.area)), str(count))
        for face, count in zip(layout.roof.faces, counts, strict=True)
    ]
    yield from kept(table(columns, faces, width * 0.75))
    if layout.untrimmed:
        yield paragraph(
            say(
                "Left without trim: {edges}.", edges=", ".join(named(name, say) for name in layout.untrimmed)
            ),
            width,
            SMALL,
        )
    yield space(0.12)


def _made_of(layout: Layout) -> Message:
    """Return what the roof is made of."""
    metal = layout.scene.metal
    return message(
        "Standing-seam panels with seams every {cover}, and trim bent from {metal} {thickness} thick.",
        cover=Length(layout.scene.panels.cover),
        metal=METAL_WORDS[metal.kind],
        thickness=Fine(metal.thickness),
    )


def _prices(choices: Sequence[Choice], width: float, say: Speaker) -> Iterator[Block]:
    """Yield the lines and the sums, the looks side by side; and all that has no price."""
    if not any(choice.offer.lines for choice in choices):
        yield from kept(
            [
                heading(say("What it comes to")),
                paragraph(say("This offer has no prices: no price list was given."), width),
            ]
        )
        return
    yield heading(say("What it comes to"))
    yield from _alone(choices[0], width, say) if len(choices) == 1 else _beside(choices, width, say)
    missing = dict.fromkeys(each.quantity.words for choice in choices for each in choice.offer.unpriced)
    if missing:
        yield space(0.06)
        yield paragraph(
            say("Not in these sums, for want of a price: {items}.", items="; ".join(map(say, missing))),
            width,
            bold=True,
        )
    yield space(0.12)


def _alone(choice: Choice, width: float, say: Speaker) -> Iterator[Block]:
    """Yield the lines of one choice with quantity and price, and its sums."""
    currency = choice.layout.scene.shop.currency
    columns = (
        TableColumn(say("For"), 3.2),
        TableColumn(say("Quantity"), 1.0, right=True),
        TableColumn(say("Unit"), 0.7),
        TableColumn(say("Price"), 1.0, right=True),
        TableColumn(say("Amount"), 1.2, right=True),
    )
    rows: list[tuple[str, ...]] = []
    strong: list[int] = []
    for group, words in GROUPS.items():
        own = [line for line in choice.offer.lines if line.group == group]
        if own:
            strong.append(len(rows))
            rows.append((say(words), "", "", "", ""))
        rows += [
            (
                say(line.words),
                _number(line.quantity),
                line.unit,
                _money(line.price, currency),
                _money(line.amount, currency),
            )
            for line in own
        ]
    rows += [(words, "", "", "", _money(amount, currency)) for words, amount in _sums(choice, say)]
    yield from table(columns, rows, width, strong={*strong, len(rows) - 1})


def _beside(choices: Sequence[Choice], width: float, say: Speaker) -> Iterator[Block]:
    """Yield what each choice comes to, line by line beside each other."""
    currency = choices[0].layout.scene.shop.currency
    names = [choice.name or say("As planned") for choice in choices]
    columns = (TableColumn(say("For"), 2.4), *(TableColumn(name, 1.1, right=True) for name in names))
    rows: list[tuple[str, ...]] = []
    strong: list[int] = []
    for group, title in GROUPS.items():
        offered = [[line for line in choice.offer.lines if line.group == group] for choice in choices]
        purposes = dict.fromkeys(line.words for own in offered for line in own)
        if purposes:
            strong.append(len(rows))
            rows.append((say(title), *("" for _ in choices)))
        for words in purposes:
            amounts = [[line.amount for line in own if line.words == words] for own in offered]
            sums = (_money(sum(own, Decimal(0)), currency) if own else "–" for own in amounts)
            rows.append((say(words), *sums))
    totals_of = [_sums(choice, say) for choice in choices]
    for place, (sum_of, _) in enumerate(totals_of[0]):
        rows.append((sum_of, *(_money(own[place][1], currency) for own in totals_of)))
    yield from table(columns, rows, width, strong={*strong, len(rows) - 1})


def _sums(choice: Choice, say: Speaker) -> list[tuple[str, Decimal]]:
    """Return what a choice adds up to, the total last."""
    offer = choice.offer
    sums = [(say("Sum of the lines"), offer.lines_total)]
    if offer.added_rate is not None:
        sums.append((say("Overhead and profit"), offer.added))
    if offer.tax_rate is not None:
        sums.append((say("Tax, {rate} %", rate=_number(offer.tax_rate)), offer.tax))
    return [*sums, (say("Total"), offer.total)]


def _checked(layout: Layout, width: float, say: Speaker) -> Iterator[Block]:
    """Yield by which terms the layout was checked, and how many findings there are."""
    findings = check(layout)
    yield heading(say("How it was checked"))
    for term in (*told_first(layout, findings, say.tape), totals(findings)):
        yield paragraph(say(term), width, SMALL, color=SOFT)


def _terms(layout: Layout, width: float, say: Speaker) -> Iterator[Block]:
    """Yield the shop's own terms, and where to sign."""
    terms = layout.scene.shop.terms
    if terms:
        yield heading(say("Terms"))
        for text in terms:
            yield paragraph(text, width)
    yield paragraph(
        say(
            "Sizes are those of the plan and are measured once more on the roof before metal is cut. Wind and "
            "structural matters are for the local code, the metal's maker and licensed practice to decide."
        ),
        width,
        SMALL,
        color=SOFT,
    )
    half = width / 2 - 0.2
    items: list[Item] = []
    for left, words in (
        (0.0, say("For the shop, place and date")),
        (half + 0.4, say("For the customer, place and date")),
    ):
        items.append(Stroke(((left, -0.75), (left + half, -0.75)), 0.01, INK, name="sign here"))
        items += lines(wrapped(words, SMALL, half), (left, -0.78), SMALL, color=SOFT)
    yield Block(1.1, tuple(items))


def _size(picture: Path) -> tuple[int, int]:
    with Image.open(picture) as image:
        return image.size


def _number(value: Decimal) -> str:
    whole = value == value.to_integral_value()
    return f"{value:,.0f}" if whole else f"{value:,.2f}"


def _money(value: Decimal, currency: str) -> str:
    return f"{currency}{value:,.2f}"
