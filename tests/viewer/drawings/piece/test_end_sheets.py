"""Sheets of ends: complete, readable, and nothing over anything else.

Those of every scene are read, and looked at for what collides, in the packet that they are bound in.
"""

import re
from dataclasses import replace
from functools import cache

import pytest
import shapely
from collisions import collisions
from once import once
from paged import box_of, paged, said
from zoo import NAMES, OTHERS, layout

from trimwright.model.message import Length, message
from trimwright.model.steps import Step
from trimwright.viewer.drawings.ink.drawing import Drawing, Stroke, Words
from trimwright.viewer.drawings.ink.letters import plain
from trimwright.viewer.drawings.paper.sizes import Paper
from trimwright.viewer.drawings.piece.end_kinds import (
    SAME,
    EndKind,
    PieceEnd,
    alike,
    kinds_of,
    letters,
    unmarked,
)
from trimwright.viewer.drawings.piece.end_sheets import end_sheets
from trimwright.viewer.report.sureness import fit_told
from trimwright.viewer.words.speaker import speaker_of

ALL = [*NAMES, *OTHERS]
SOME = ["bakehouse", "ice-house", "oar-store", "sail-loft"]


@cache
def kinds(name: str) -> tuple[EndKind, ...]:
    return kinds_of(layout(name))


@once
def pages(name: str, paper: Paper = "letter", forming: str = "before cutting") -> tuple[Drawing, ...]:
    plan = layout(name)
    if forming != plan.scene.shop.forming:
        shop = plan.scene.shop.model_copy(update={"forming": forming})
        plan = replace(plan, scene=plan.scene.model_copy(update={"shop": shop}))
    box = box_of(plan, paper)
    return paged(plan, end_sheets(plan, box, box.height, speaker_of(plan.scene)).blocks, paper)


def one_of(name: str, mark: str, at: int) -> PieceEnd:
    part = layout(name).part(mark)
    return PieceEnd(part, part.ends[at])


@pytest.mark.parametrize("name", SOME)
def test_nothing_collides_on_the_other_paper(name: str) -> None:
    assert [(page.title, found) for page in pages(name, "a4") for found in collisions(page)] == []


@pytest.mark.parametrize("name", SOME)
def test_nothing_collides_where_pieces_are_cut_flat(name: str) -> None:
    there = pages(name, "letter", "after cutting")
    assert [(page.title, found) for page in there for found in collisions(page)] == []


@pytest.mark.parametrize("name", ALL)
def test_every_end_is_of_one_kind(name: str) -> None:
    found = [(one.part.mark, one.end.at) for kind in kinds(name) for one in kind.ends]
    assert sorted(found) == sorted((part.mark, end.at) for part in layout(name).parts for end in part.ends)
    codes = [kind.code for kind in kinds(name) if kind.code]
    assert codes == [letters(number) for number in range(len(codes))]
    assert all(kind.square == (not kind.code) for kind in kinds(name))


@pytest.mark.parametrize("name", SOME)
def test_every_end_and_every_step_is_told(name: str) -> None:
    text, say = said(pages(name)), speaker_of(layout(name).scene)
    for kind in kinds(name):
        for step in kind.first.end.steps:
            assert plain(say(kind.told(step))).replace("\N{NO-BREAK SPACE}", " ") in text
        assert all(one.part.mark in text for one in kind.ends)


@pytest.mark.parametrize("name", SOME)
def test_steps_are_numbered_in_their_order(name: str) -> None:
    numbers = [
        item.text
        for page in pages(name)
        for item in page.items
        if isinstance(item, Words) and item.name == "number"
    ]
    wanted = [str(n + 1) for kind in kinds(name) if kind.code for n in range(len(kind.first.end.steps))]
    assert sorted(numbers) == sorted(wanted)


@pytest.mark.parametrize("name", ALL)
def test_ends_that_share_a_sheet_are_the_same_to_a_thirty_second(name: str) -> None:
    for kind in kinds(name):
        first = kind.first
        for one in kind.ends[1:]:
            edges = [shapely.LineString(each.inward(each.end.cut.edge)) for each in (first, one)]
            assert shapely.hausdorff_distance(*edges) <= SAME + 1e-9


def test_the_mirror_image_shares_the_sheet_and_another_cut_does_not() -> None:
    low, mirrored = one_of("boat-shed", "R1-1", 0), one_of("boat-shed", "R2-1", 0)
    assert alike(low, mirrored)
    assert low.at_left
    assert not mirrored.at_left
    assert not alike(low, one_of("boat-shed", "R1-1", 1))
    assert not alike(one_of("boat-shed", "R1-2", 1), one_of("boat-shed", "R2-2", 1)), (
        "under and over at the peak"
    )


def test_a_shared_sheet_names_no_single_neighbor() -> None:
    under = Step("set", message("It goes {lap} under {mark}.", lap=Length(4), mark="R1-2"))
    assert str(unmarked(under, {"R1-2"})) == 'It goes 4" under its neighbor.'
    assert str(unmarked(under, {"R1-21"})) == 'It goes 4" under R1-2.'


def test_a_sheet_says_whether_pieces_come_formed_and_which_cuts_come_first() -> None:
    assert "No cut comes before forming" in said(pages("boat-shed"))
    flat = said(pages("boat-shed", "letter", "after cutting"))
    assert "Every step marked flat comes before forming" in flat
    assert flat.count("Cut flat") == len([kind for kind in kinds("boat-shed") if kind.code])
    assert "Before forming: steps 1 to 10. After it: 11 to 13." in flat, "the tab is folded last"
    assert "Comes formed" not in flat
    assert re.search(r'\d+" \([\d /]+" below lip\)', flat), "what a rule reads stands beside the flat measure"


def test_what_is_cut_to_fit_is_told_on_its_sheets() -> None:
    """The old cooperage is crooked and taped: the last pieces of its rakes are cut to fit on the roof."""
    plan = layout("cooperage")
    fit = [part.mark for part in plan.parts if fit_told(plan, part.mark) is not None]
    text = said(pages("cooperage"))
    assert fit
    assert "measured on the roof before its last end is cut" in text
    assert text.count("to fit") >= 2 * len(fit), "both ends of each"


def test_the_peak_is_set_dry_at_once_and_says_to_tie_off() -> None:
    text = said(pages("boat-shed"))
    assert "Set both rakes of the peak dry at once" in text
    assert "tie off before you carry it up" in text


def test_a_page_reads_in_black_and_white() -> None:
    """What is cut next is told from the metal and from lines that are only drawn without any color."""
    strokes = [item for page in pages("boat-shed") for item in page.items if isinstance(item, Stroke)]
    styles = {
        name: {(s.dash, s.width) for s in strokes if s.name == name}
        for name in ("cut", "fold", "mark", "edge")
    }
    heavy = {name: max(styles[name], key=lambda style: style[1]) for name in styles}
    assert len({dash for dash, _ in heavy.values()}) == len(heavy)
    assert heavy["cut"][1] > 2 * heavy["edge"][1]
