"""What the shop and the crew read: bends of a section by hand, labels with their square codes, the order of work."""

from dataclasses import replace

import numpy as np
import pypdfium2
import pytest
import segno
from collisions import collisions
from paged import box_of, paged, said
from pytest import approx
from zoo import NAMES, layout

from trimwright.model.layout import Layout
from trimwright.model.message import message
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.display.setting_steps import runs_in_order
from trimwright.viewer.drawings.ink.drawing import Area, Words
from trimwright.viewer.drawings.ink.pdf import pdf_of
from trimwright.viewer.drawings.packet.bend_list import bend_list, bend_order
from trimwright.viewer.drawings.packet.crew_page import LONG, crew_page
from trimwright.viewer.drawings.packet.labels import labels
from trimwright.viewer.report.short import short_pieces
from trimwright.viewer.words.speaker import speaker_of

PAGE = "https://example.org/boat-shed.html"


def asked(**shop: object) -> Layout:
    """Return the boat shed with a shop that says so."""
    plan = layout("boat-shed")
    spec = plan.scene.shop.model_copy(update=shop)
    return replace(plan, scene=plan.scene.model_copy(update={"shop": spec}))


def told(plan: Layout) -> str:
    say, width = speaker_of(plan.scene), box_of(plan).width
    return said(paged(plan, bend_list(plan, timed_takeoff(plan), width, say)))


def test_bends_of_a_hook_rake_by_hand() -> None:
    """Top 4, return 1, face 3 1/2, kick 3/4, hem 3/8, outside the bends: each stop is the leg that lies at the gauge.

    The hem first, from the strip's edge. Then from the edges in: the kick's bend, 3/4 from the hem's fold; the nose, 4
    from the inboard edge; the bend under the lip, 1 from the nose. A stop is to the middle of the bend's metal, which
    is off the outside corner by less than 1/16.
    """
    section = layout("boat-shed").part("R1-1").run.section
    steps = bend_order(section)
    assert [section.legs[step.number].name for step in steps] == ["kick", "top", "face", "return"]
    assert sorted(step.stop for step in steps) == approx([3 / 8, 3 / 4, 1, 4], abs=1 / 16)
    assert [step.against is None for step in steps] == [True, True, False, False]
    assert np.degrees([step.angle for step in steps]) == approx([180, 180, -45, -90], abs=0.1)


@pytest.mark.parametrize("name", NAMES)
def test_every_bend_is_made_once_hems_first(name: str) -> None:
    for run in layout(name).runs:
        steps = bend_order(run.section)
        made = [bend for bend in run.section.bends if bend.last > bend.first]
        assert len(steps) == len({step.number for step in steps}) == len(made)
        hems = [abs(step.angle) > 2.6 and step.number in (0, len(run.section.bends) - 1) for step in steps]
        assert hems == sorted(hems, reverse=True)
        assert all(step.stop > 0 for step in steps)


def test_the_bend_list_says_strip_lengths_weight_and_gap() -> None:
    text = told(layout("boat-shed"))
    takeoff = timed_takeoff(layout("boat-shed"))
    tape = layout("boat-shed").scene.tape
    for trim in takeoff.trim:
        assert f"Strip {tape(trim.width)} wide" in text
        assert f"{trim.weight:.1f} lb" in text
        for length, count in trim.counts:
            assert f"{count} of {tape(length)}" in text
    assert f"left open by {tape.fine(2 * layout('boat-shed').scene.metal.radius)}" in text


def test_a_brake_that_is_too_short_or_too_coarse_is_told() -> None:
    assert "Longer than the brake" not in told(layout("boat-shed"))
    assert "Longer than the brake" in told(asked(brake=96.0))
    assert 'Narrower than the brake grips, 1/2": hem' in told(asked(smallest_leg=0.5))


def test_eleven_rows_of_labels_fill_a_page() -> None:
    plan = layout("salt-house")
    assert len(plan.parts) == 33
    assert len(paged(plan, labels(plan, box_of(plan).width, speaker_of(plan.scene)))) == 1


def test_labels_have_mark_hand_length_and_what_lies_over_or_under() -> None:
    plan = layout("boat-shed")
    pages = paged(plan, labels(plan, box_of(plan).width, speaker_of(plan.scene)))
    assert [found for page in pages for found in collisions(page)] == []
    marks = [i.text for page in pages for i in page.items if isinstance(i, Words) and i.name == "mark"]
    assert marks == [part.mark for part in plan.parts]
    text = said(pages)
    for words in (
        "left hand",
        "right hand",
        "low: over E1-4",
        "high: under R1-2",
        plan.scene.tape(plan.part("R1-2").length),
    ):
        assert words in text


def test_a_label_carries_a_code_that_leads_to_its_piece() -> None:
    """The code on the rendered page, module by module, is that of the address; segno's own matrix says which."""
    plan = asked(page=PAGE)
    page = paged(plan, labels(plan, box_of(plan).width, speaker_of(plan.scene)))[0]
    codes = [np.array(i.rings[0]) for i in page.items if isinstance(i, Area) and i.name == "code"]
    matrix = np.array([list(row) for row in segno.make_qr(f"{PAGE}#E1-1", error="l").matrix])
    corner = np.array([ring.min(axis=0) for ring in codes])
    first = [ring for ring in codes if ring[:, 0].max() < page.size[0] / 2 - 1.0]
    assert len(first) < len(corner)
    left, high = min(r[:, 0].min() for r in first), max(r[:, 1].max() for r in first)
    side = max(r[:, 0].max() for r in first) - left
    shades = pypdfium2.PdfDocument(pdf_of([page], "Labels"))[0].render(scale=600 / 72).to_pil().convert("L")
    seen = np.asarray(shades)
    step = side / len(matrix)
    for y in range(len(matrix)):
        for x in range(len(matrix)):
            at = (left + (x + 0.5) * step, page.size[1] - high + (y + 0.5) * step)
            assert (seen[round(at[1] * 600), round(at[0] * 600)] < 128) == bool(matrix[y][x])
    assert not [
        i
        for i in paged(layout("boat-shed"), labels(layout("boat-shed"), 7.5, speaker_of(plan.scene)))[0].items
        if isinstance(i, Area) and i.name == "code"
    ], "no address, no code"


@pytest.mark.parametrize("name", NAMES)
def test_the_crew_page_has_the_order_and_where_the_short_pieces_land(name: str) -> None:
    plan = layout(name)
    pages = paged(plan, crew_page(plan, box_of(plan).width, speaker_of(plan.scene)))
    assert [found for page in pages for found in collisions(page)] == []
    text, at = said(pages), -1
    for number, steps in enumerate(runs_in_order(plan), 1):
        there = text.find(f"{number} {steps[0].place}", at + 1)
        assert there > at, (number, steps[0].place)
        at = there
    for one in short_pieces(plan):
        assert f"{one.mark}, {plan.scene.tape(one.length)}" in text
    assert "Power lines" in text
    assert f"longer than {speaker_of(plan.scene)(message('{long}', long=LONG))}" in text


@pytest.mark.parametrize("name", ["boat-shed", "slip-shed"])
def test_short_pieces_cover_nothing_in_two_languages(name: str) -> None:
    plan = layout(name)
    plan = replace(plan, scene=plan.scene.model_copy(update={"language": ("en", "es")}))
    pages = paged(plan, crew_page(plan, box_of(plan).width, speaker_of(plan.scene)))
    assert len(short_pieces(plan)) > 1
    assert [found for page in pages for found in collisions(page)] == []
