import json
import math
import re
from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from zoo import NAMES, layout

from trimwright.model.message import Message
from trimwright.model.scene.read import scene_from
from trimwright.model.takeoff.count import take_off
from trimwright.viewer.drawings.ink.drawing import Words
from trimwright.viewer.offer.as_json import numbers_of
from trimwright.viewer.offer.choice import Choice, choices_of
from trimwright.viewer.offer.offer import Offer, offer_of
from trimwright.viewer.offer.pages import offer_pages
from trimwright.viewer.offer.price_list import PriceList, price_list_of, read_price_list
from trimwright.viewer.offer.quantities import MEASURES, quantities_of

SAMPLE = Path(__file__, "..", "..", "..", "..", "scenes", "sample-prices.csv").resolve()
HEADINGS = ("item", "unit", "price", "waste")

COPPER_TOO = """
title = "Ferry hut"
[roof]
form = "shed"
length = "20'"
width = "12'"
pitch = "4/12"
[[look]]
name = "Copper"
metal = { kind = "copper" }
"""


def prices(*rows: tuple[object, ...]) -> PriceList:
    return price_list_of([HEADINGS, *rows], "prices.csv")


def offered(name: str, listed: PriceList | None) -> Offer:
    return offer_of(quantities_of(layout(name), take_off(layout(name))), listed)


def half_up(value: Fraction) -> Fraction:
    """Round to the cent without the module under test: a half goes up."""
    return Fraction(math.floor(value * 100 + Fraction(1, 2)), 100)


@pytest.mark.parametrize("name", NAMES)
def test_totals_are_an_independent_sum_over_the_layout(name: str) -> None:
    roof = layout(name)
    listed = prices(
        ("trim", "ft", "3.35", "7.5"),
        ("screws", "100", "9.75", ""),
        ("labor panels", "m2", "31", ""),
        ("markup", "%", "12.5", ""),
        ("tax", "%", "6.25", ""),
    )
    waste = Fraction("1.075")
    by_section: Counter[str] = Counter()
    for trim in take_off(roof).trim:
        by_section[trim.label] = sum(
            Fraction(part.length) for part in roof.parts if part.run.code in trim.runs
        )
    for strip in take_off(roof).strips:
        marks = {mark for bought in strip.plan.lengths for mark in bought.pieces}
        by_section[strip.label] = sum(Fraction(one.length) for one in roof.cleats if one.mark in marks)
    trims = [half_up(half_up(inches / 12 * waste) * Fraction("3.35")) for inches in by_section.values()]
    boxes = half_up(half_up(Fraction(take_off(roof).screws.buy, 100)) * Fraction("9.75"))
    area = sum(face.area for face in roof.roof.faces) * 0.0254**2
    laid = half_up(half_up(Fraction(area)) * 31)
    lines = sum(trims) + boxes + laid
    added = half_up(lines * Fraction("0.125"))
    tax = half_up((lines + added) * Fraction("0.0625"))
    offer = offered(name, listed)
    assert Fraction(offer.lines_total) == lines
    assert Fraction(offer.total) == lines + added + tax


def test_without_a_list_nothing_has_a_price_and_all_of_it_is_told() -> None:
    offer = offered("net-loft", None)
    assert offer.total == 0 and not offer.lines
    assert len(offer.unpriced) == len(quantities_of(layout("net-loft"), take_off(layout("net-loft"))))


def test_what_the_list_has_in_another_unit_only_is_told_with_that_unit() -> None:
    offer = offered("net-loft", prices(("screws", "lb", "4", "")))
    (screws,) = (each for each in offer.unpriced if each.quantity.items[-1] == "screws")
    assert screws.listed == ("lb",)


@pytest.mark.parametrize("name", NAMES)
def test_labor_is_named_in_words_that_a_catalog_has(name: str) -> None:
    roof = layout(name)
    work = [one.words for one in quantities_of(roof, take_off(roof)) if one.group == "labor"]
    assert all(isinstance(value, Message) for named in work for _, value in named.values)


def test_margin_is_a_share_of_the_price() -> None:
    """Lines of 300 and a margin of 25 % make 400: 100 is a quarter of it."""
    count = take_off(layout("net-loft")).screws.buy
    offer = offered(
        "net-loft", prices(("screws", "each", str(Decimal(300) / count), ""), ("margin", "%", "25", ""))
    )
    assert abs(offer.lines_total - 300) <= Decimal("0.01")
    assert abs(offer.added - 100) <= Decimal("0.01")


def test_a_profile_wins_over_trim_and_both_units_of_it_count() -> None:
    offer = offered(
        "net-loft", prices(("trim", "ft", 1, ""), ("hook eave", "each", 20, ""), ("hook eave", "lb", 1, ""))
    )
    lines = [line for line in offer.lines if "hook eave" in str(line.words)]
    assert [(line.item, line.unit) for line in lines] == [("hook eave", "each"), ("hook eave", "lb")]


def test_metal_of_another_kind_is_never_priced_by_a_row_without_a_kind() -> None:
    listed = prices(("trim", "ft", 4, ""), ("panels", "sq ft", 3, ""), ("copper trim", "ft", 15, ""))
    planned, copper = choices_of(scene_from(COPPER_TOO), listed)
    assert {line.item for line in planned.offer.lines} == {"trim", "panels"}
    assert {line.item for line in copper.offer.lines} == {"copper trim"}
    assert any("panels" in each.quantity.items[0] for each in copper.offer.unpriced)


def test_what_the_roof_is_made_of_is_told_for_each_look_where_they_differ() -> None:
    both = tuple(choices_of(scene_from(COPPER_TOO), None))
    assert [told_of(choices) for choices in (both, both[:1])] == [
        ["As planned: steel 0.024", "Copper: copper 0.022"],
        ["steel 0.024"],
    ]


def told_of(choices: Sequence[Choice]) -> list[str]:
    """Return what an offer says of the metal, and before that whose it is."""
    text = " ".join(
        item.text
        for page in offer_pages(choices, [], None, "")
        for item in page.items
        if isinstance(item, Words)
    )
    found = re.findall(r"((?:As planned: |Copper: )?)Standing-seam panels [^.]*?bent from (\w+ [\d.]+)", text)
    return ["".join(one) for one in found]


def test_numbers_are_exact_and_agree_with_the_offer() -> None:
    (choice,) = choices_of(layout("boat-shed").scene, read_price_list(SAMPLE))
    told = json.loads(numbers_of([choice]), parse_float=lambda text: pytest.fail(f"{text} is no text"))
    (one,) = told["choices"]
    assert sum(Decimal(line["amount"]) for line in one["lines"]) == Decimal(one["lines_total"])
    assert Decimal(one["total"]) == choice.offer.total > 0
    assert one["unpriced"] == []


money = st.decimals(0, 5000, places=3)
items = st.sampled_from(
    ("trim", "panels", "screws", "sealant", "labor trim", "labor corner", "hook rake", "cleats")
)


@given(
    st.dictionaries(
        st.tuples(items, st.sampled_from(MEASURES)), st.tuples(money, st.integers(0, 40)), max_size=9
    )
)
def test_any_list_gives_sums_of_whole_cents_and_prices_or_names_everything(
    rows: dict[tuple[str, str], tuple[Decimal, int]],
) -> None:
    listed = prices(*((item, unit, price, waste) for (item, unit), (price, waste) in rows.items()))
    quantities = quantities_of(layout("oar-store"), take_off(layout("oar-store")))
    offer = offer_of(quantities, listed)
    assert offer.total == sum(line.amount for line in offer.lines)
    assert all(line.amount == round(line.amount, 2) for line in offer.lines)
    told = {str(line.words) for line in offer.lines} | {str(each.quantity.words) for each in offer.unpriced}
    assert told == {str(quantity.words) for quantity in quantities}
