"""Cut sheets of every scene, on both papers: complete, readable, and nothing over anything else."""

from functools import cache

import numpy as np
import pypdfium2
import pytest
from collisions import collisions
from pytest import approx
from zoo import NAMES, OTHERS, layout

from trimwright.model.layout import Part
from trimwright.model.message import Length, message
from trimwright.model.steps import Step
from trimwright.viewer.drawings.ink.drawing import Area, Drawing, Stroke, Words
from trimwright.viewer.drawings.ink.letters import plain
from trimwright.viewer.drawings.ink.pdf import pdf_of
from trimwright.viewer.drawings.paper.page import Paper, imprint_of
from trimwright.viewer.drawings.piece.batches import SAME, alike, batches, unmarked
from trimwright.viewer.drawings.piece.cut_sheet import cut_sheet, cut_sheets
from trimwright.viewer.drawings.piece.template import templates
from trimwright.viewer.words.speaker import speaker_of

ALL = [*NAMES, *OTHERS]
SOME = ["bakehouse", "ice-house", "oar-store", "sail-loft"]
DATE = "2026-11-20"


@cache
def sheets(name: str, paper: Paper) -> tuple[tuple[Part, tuple[Drawing, ...]], ...]:
    plan = layout(name)
    return tuple(
        (batch.first, tuple(cut_sheet(batch, plan, paper, imprint_of(plan.scene, DATE))))
        for batch in batches(plan)
    )


def said(pages: tuple[Drawing, ...]) -> str:
    """Return all the text of some pages, lines that were broken joined again."""
    words = [item.text for page in pages for item in page.items if isinstance(item, Words)]
    return " ".join(" ".join(words).replace("\N{NO-BREAK SPACE}", " ").split())


@pytest.mark.parametrize(
    ("name", "paper"), [*((name, "letter") for name in ALL), *((name, "a4") for name in SOME)]
)
def test_nothing_collides(name: str, paper: Paper) -> None:
    pages = [page for _, own in sheets(name, paper) for page in own]
    pages += templates(layout(name), paper, imprint_of(layout(name).scene, DATE))
    assert [(page.title, found) for page in pages for found in collisions(page)] == []


@pytest.mark.parametrize("name", ALL)
def test_every_piece_is_on_one_sheet(name: str) -> None:
    plan = layout(name)
    marks = [mark for batch in batches(plan) for mark in batch.marks]
    assert sorted(marks) == sorted(part.mark for part in plan.parts)
    for batch, (_, pages) in zip(batches(plan), sheets(name, "letter"), strict=True):
        text = said(pages)
        assert f"{len(batch.parts)}: {', '.join(batch.marks)}" in text


@pytest.mark.parametrize("name", ALL)
def test_every_step_is_told_with_its_number(name: str) -> None:
    plan = layout(name)
    say = speaker_of(plan.scene)
    for batch, (part, pages) in zip(batches(plan), sheets(name, "letter"), strict=True):
        text = said(pages)
        for end in part.ends:
            for step in end.steps:
                told = say(unmarked(step, end.others if len(batch.parts) > 1 else ()))
                assert plain(told) in text
        numbers = [
            item.text
            for page in pages
            for item in page.items
            if isinstance(item, Words) and item.name == "number"
        ]
        assert numbers == [str(n + 1) for end in part.ends for n in range(len(end.steps))]


@pytest.mark.parametrize("name", SOME)
def test_every_page_says_scene_date_and_cautions(name: str) -> None:
    for _, pages in sheets(name, "a4"):
        for page in pages:
            text = said((page,))
            for words in (layout(name).scene.title, DATE, "falls", "edges", "power lines", "ladders", "peak"):
                assert words in text


@pytest.mark.parametrize("name", ALL)
def test_every_screw_is_a_tape_mark(name: str) -> None:
    plan = layout(name)
    for batch, (_, pages) in zip(batches(plan), sheets(name, "letter"), strict=True):
        texts = {i.text for page in pages for i in page.items if isinstance(i, Words) and i.name == "tape"}
        marks = {plan.scene.tape(s.at) for s in plan.screws if s.mark in batch.marks}
        assert marks <= texts


@pytest.mark.parametrize("name", ALL)
def test_a_piece_for_the_peak_says_to_tie_off(name: str) -> None:
    for part, pages in sheets(name, "letter"):
        if any(end.kind.name == "peak" for end in part.ends):
            assert "tie off" in said(pages)


def test_pieces_that_share_a_sheet_are_the_same_to_a_thirty_second() -> None:
    for name in ALL:
        for batch in batches(layout(name)):
            for other in batch.parts[1:]:
                shift = np.array([other.low - batch.first.low, 0.0])
                assert np.abs(batch.first.sheet.outline + shift - other.sheet.outline).max() <= SAME + 1e-9
                assert batch.first.run.hand == other.run.hand


def test_left_and_right_never_share_a_sheet() -> None:
    parts = {part.mark: part for part in layout("boat-shed").parts}
    assert alike(parts["R1-1"], parts["R3-1"])
    assert not alike(parts["R1-1"], parts["R2-1"])
    assert not alike(parts["E1-1"], parts["E1-2"])


def test_a_shared_sheet_names_no_single_neighbour() -> None:
    under = Step("set", message("It goes {lap} under {mark}.", lap=Length(4), mark="R1-2"))
    assert str(unmarked(under, {"R1-2"})) == 'It goes 4" under its neighbour.'
    assert str(unmarked(under, {"R1-21"})) == 'It goes 4" under R1-2.'


def test_a_page_reads_in_black_and_white() -> None:
    """What is cut next is told from the metal and from lines that are only drawn without any color."""
    _, pages = next(entry for entry in sheets("boat-shed", "letter") if entry[0].mark == "R1-1")
    strokes = [item for page in pages for item in page.items if isinstance(item, Stroke)]
    styles = {
        name: {(s.dash, s.width) for s in strokes if s.name == name}
        for name in ("cut", "fold", "mark", "edge")
    }
    heavy = {name: max(styles[name], key=lambda style: style[1]) for name in styles}
    assert len({dash for dash, _ in heavy.values()}) == len(heavy)
    assert heavy["cut"][1] > 2 * heavy["edge"][1]


def test_the_painted_side_is_up() -> None:
    """A left-hand piece has its low end at the left of its pattern, its mirror image at the right."""
    for mark, left in (("R1-1", True), ("R2-1", False), ("E1-2", True), ("C1-1", True)):
        _, pages = next(entry for entry in sheets("boat-shed", "letter") if mark in said(entry[1][:1])[:80])
        ends = {i.text: i.at[0] for i in pages[0].items if isinstance(i, Words) and i.name == "end"}
        assert (ends["low end"] < ends["high end"]) == left


def test_the_pattern_is_true_to_scale() -> None:
    part, pages = next(entry for entry in sheets("boat-shed", "letter") if entry[0].mark == "R1-2")
    metal = [
        item
        for item in pages[0].items
        if isinstance(item, Area) and item.name == "metal" and item.color == "#f4f4f2"
    ]
    ring = np.array(metal[0].rings[0])
    scale = np.ptp(ring[:, 0]) / part.length
    assert np.ptp(ring[:, 1]) == approx(part.run.section.width * scale)
    caption = next(
        i.text for i in pages[-1].items if isinstance(i, Words) and i.name == "caption" and "1:" in i.text
    )
    scale = 1 / float(caption.rsplit("1:", 1)[1])
    outline = [item for item in pages[-1].items if isinstance(item, Stroke) and item.name == "outline"]
    points = np.array([p for item in outline for p in item.points])
    assert np.ptp(points[:, 1]) == approx(part.run.section.width * scale)


def test_a_sheet_prints() -> None:
    pages = cut_sheets(layout("oar-store"), "letter", imprint_of(layout("oar-store").scene))
    document = pypdfium2.PdfDocument(pdf_of(pages, "Cut sheets"))
    assert len(document) == len(pages)
    text = document[0].get_textpage().get_text_range()
    assert layout("oar-store").scene.title in text
