"""A roof in millimeters is told in metric units throughout: packet, lists, offer, page, spreadsheets."""

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from zoo import layout

from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.viewer.buy.lists import lists_of, noted, spread_out, texts
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.drawings.ink.drawing import Words
from trimwright.viewer.drawings.ink.letters import plain
from trimwright.viewer.drawings.packet.packet import bind
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.page.payload import payload_of
from trimwright.viewer.words.speaker import speaker_of

IMPERIAL = re.compile(
    r"\d\s?(?:['\"]|in\b(?! sealant)|ft\b|ft²|sq ft|lb\b|lb/|oz\b|fl oz|gal\b|mph\b|psf\b|°F|degrees F)"
    r"|\b(?:inch|inches|feet(?! of)|pounds?|ounces?)\b"
)
"""Units that nobody has on a metric site; the foot of a valley and the feet of seams are none."""

CITED = re.compile(r"(?:Source|Fuente): |\(CDA|FEMA|IBC|UFGS|1926\.50")
"""Words of a source stand as it has them."""


@cache
def metric(name: str) -> Layout:
    plan = layout(name)
    return replace(plan, scene=plan.scene.model_copy(update={"show": "mm"}))


def in_packet(plan: Layout) -> Iterator[str]:
    bound = bind(plan, check(plan), timed_takeoff(plan), imprint_of(plan.scene))
    for page in bound.pages:
        yield from (plain(item.text) for item in page.items if isinstance(item, Words))


def imperial_in(told: Iterator[str]) -> set[str]:
    return {text for text in told if IMPERIAL.search(text) and not CITED.search(text)}


def test_a_length_in_feet_would_be_found() -> None:
    assert imperial_in(iter(["10' 6\"", "4178.8 lb", "10.1 fl oz", "12 in apart", "2593 sq ft"])) != set()
    assert len(imperial_in(in_packet(layout("oar-store")))) > 20


def test_a_metric_packet_has_no_other_units() -> None:
    """The sail loft is drawn in millimeters; the rope store, shown in them, has valleys and hips."""
    for name in ("sail-loft", "rope-store"):
        assert imperial_in(in_packet(metric(name))) == set()


def test_metric_lists_have_no_other_units_and_their_numbers_are_millimeters_and_kilograms() -> None:
    plan, takeoff = metric("sail-loft"), timed_takeoff(metric("sail-loft"))
    say = speaker_of(plan.scene)
    for each in lists_of(plan, takeoff):
        names, rows = spread_out(each, say)
        told = [*names, noted(each, say), *(cell for row in texts(each, say) for cell in row)]
        assert imperial_in(iter(told)) == set()
        assert not [name for name in names if name.endswith((", in", ", lb"))]
        for column, name in enumerate(names):
            if name.endswith(", mm"):
                assert all(
                    row[column] is None or f"{float(row[column] or 0):.0f} mm" == row[column - 1]
                    for row in rows
                )


def test_the_starting_line_has_round_sides_on_a_metric_tape() -> None:
    plan = metric("sail-loft")
    notes = " ".join(noted(each, speaker_of(plan.scene)) for each in lists_of(plan, timed_takeoff(plan)))
    told = re.findall(r"a mark (\d+) mm|one (\d+) mm up|are (\d+) mm apart", plain(notes))
    sides = [int(number) for numbers in told for number in numbers if number]
    assert sides and all(side % 100 == 0 for side in sides)


def test_a_metric_page_has_no_other_units() -> None:
    plan = metric("sail-loft")
    told: list[str] = []

    def walk(value: object) -> None:
        if isinstance(value, str):
            told.append(plain(value))
        elif isinstance(value, dict):
            for one in value.values():
                walk(one)
        elif isinstance(value, list | tuple):
            for one in value:
                walk(one)

    walk(json.loads(json.dumps(payload_of(plan, ()), default=str)))
    assert imperial_in(iter(told)) == set()
