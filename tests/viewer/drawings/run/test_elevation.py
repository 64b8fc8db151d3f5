"""Run elevations: every piece, screw, lap, seam and finding of the run, where it is; nothing over anything else."""

from collections import Counter

import pytest
import shapely
from collisions import collisions
from once import once
from paged import box_of, paged
from pytest import approx
from zoo import NAMES, OTHERS, layout

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.data.report import pieces_of
from trimwright.viewer.drawings.ink.drawing import Area, Drawing, Stroke, Words
from trimwright.viewer.drawings.paper.pins import pins_of
from trimwright.viewer.drawings.paper.sizes import Paper
from trimwright.viewer.drawings.run.elevation import elevation
from trimwright.viewer.drawings.run.run_facts import RunFacts, drawings, facts_of, merged, paired, patterns
from trimwright.viewer.drawings.run.strip_scale import scale_of

ALL = [*NAMES, *OTHERS]


CLOSE = """
title = "Wind-beaten store"
[roof]
form = "hip"
length = "44'"
width = "26'"
pitch = "6/12"
[metal]
stock = ["30 ft"]
[rules]
set = "high wind"
"""


@once
def runs(name: str, paper: Paper = "letter") -> tuple[tuple[RunFacts, tuple[Drawing, ...]], ...]:
    """Return the pages of every run that is drawn, each by itself."""
    plan = layout(name)
    pins = pins_of(check(plan))
    width = box_of(plan, paper).width
    facts = paired([facts_of(plan, run, pins) for run in plan.runs])
    return tuple((one, paged(plan, elevation(one, width), paper, "A run")) for one in facts)


def shared(facts: RunFacts) -> list[list[str]]:
    """Return the marks of the pieces that each strip stands for."""
    return [
        [own.parts[number].mark for own in (facts, *facts.twins) for number in numbers]
        for numbers in patterns(facts)
    ]


def drawn(pages: tuple[Drawing, ...], name: str) -> list[Area | Stroke]:
    return [
        item for page in pages for item in page.items if isinstance(item, Area | Stroke) and item.name == name
    ]


def words(pages: tuple[Drawing, ...], name: str) -> list[str]:
    return [
        item.text for page in pages for item in page.items if isinstance(item, Words) and item.name == name
    ]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ALL)
def test_nothing_collides(name: str, paper: Paper) -> None:
    pages = [page for _, own in runs(name, paper) for page in own]
    assert [(page.title, found) for page in pages for found in collisions(page)] == []


@pytest.mark.parametrize("name", ALL)
def test_every_piece_and_every_screw_of_the_report_is_marked(name: str) -> None:
    plan = layout(name)
    show = plan.scene.tape
    pieces = {piece["name"]: piece for piece in pieces_of(plan)}
    seen = [mark for facts, _ in runs(name) for marks in shared(facts) for mark in marks]
    assert sorted(seen) == sorted(pieces)
    for facts, pages in runs(name):
        told = " | ".join(words(pages, "tape mark"))
        named = words(pages, "mark")
        for marks in shared(facts):
            assert ", ".join(marks) in named
            first = pieces[marks[0]]
            assert all(show(each) in told for each in {0.0, first["length"], *first["screws"]})


@pytest.mark.parametrize("name", ALL)
def test_pieces_that_share_a_strip_have_the_same_screws(name: str) -> None:
    pieces = {piece["name"]: piece for piece in pieces_of(layout(name))}
    for facts, _ in runs(name):
        for marks in shared(facts):
            for mark in marks[1:]:
                assert pieces[mark]["screws"] == approx(pieces[marks[0]]["screws"], abs=1 / 32)


@pytest.mark.parametrize("name", ALL)
def test_there_is_a_dot_for_every_screw_of_what_is_drawn(name: str) -> None:
    for facts, pages in runs(name):
        dots = drawn(pages, "screw")
        own = [facts.parts[served[0][0]].mark for served in drawings(facts)]
        assert len(dots) == sum(len(facts.screws[mark]) for mark in own)


@pytest.mark.parametrize("name", ALL)
def test_short_pieces_are_called_so(name: str) -> None:
    for facts, pages in runs(name):
        short = [numbers for numbers in patterns(facts) if facts.parts[numbers[0]].piece.short]
        assert len(words(pages, "short piece")) == len(short)


def test_marks_run_from_the_piece_and_from_the_edge_by_hand() -> None:
    # Boat shed, front eave, 33' 4": three pieces of 10' 6" that lap by 4", so the last begins at 3 x 10' 2" = 30' 6".
    facts, pages = next((facts, pages) for facts, pages in runs("boat-shed") if facts.run.code == "E1")
    own, edge = words(pages, "tape mark"), words(pages, "edge mark")
    assert own[0:2] == ['0"', '6"']
    assert edge[0:2] == ['0"', '6"']
    assert own.count("10' 6\"") == 2, "one for the first piece, one for the two that are alike"
    assert "30' 6\"" in edge
    assert shared(facts) == [["E1-1"], ["E1-2", "E1-3"], ["E1-4"]]
    assert facts.parts[3].low == approx(366.0)


def test_runs_that_look_the_same_are_drawn_once() -> None:
    drawn_once = {facts.run.code: [twin.run.code for twin in facts.twins] for facts, _ in runs("boat-shed")}
    assert drawn_once["R2"] == ["R4"]
    assert drawn_once["R1"] == ["R3"]
    assert "R1-2, R3-2" in words(runs("boat-shed")[2][1], "mark")


def test_screws_stand_in_the_drawing_where_the_scale_puts_them() -> None:
    for facts, pages in runs("harbor-office"):
        scale = scale_of(facts, pages[0].size[0] - 1.0)
        dots = [
            item.rings[0]
            for page in pages
            for item in page.items
            if isinstance(item, Area) and item.name == "screw"
        ]
        first = [shapely.Polygon(ring).centroid.x for ring in dots[: len(facts.screws[facts.parts[0].mark])]]
        at = [screw.at for screw in facts.screws[facts.parts[0].mark]]
        apart = [abs(x - first[0]) for x in first]
        assert apart == approx([abs(u - at[0]) * scale.ratio for u in at], abs=0.005)


def test_a_right_hand_rake_has_its_low_end_at_the_right() -> None:
    for facts, pages in runs("boat-shed"):
        [hook, *_] = [
            item for item in pages[0].items if isinstance(item, Area) and item.name == "tape hooks on here"
        ]
        middle = pages[0].size[0] / 2
        assert (hook.rings[0][0][0] > middle) == (facts.run.hand == "right")


@pytest.mark.parametrize("name", ["slip-shed", "net-loft"])
def test_findings_are_pinned_on_their_run_and_told_below(name: str) -> None:
    findings = check(layout(name))
    seen = set()
    for facts, pages in runs(name):
        told = " ".join(
            item.text for page in pages for item in page.items if isinstance(item, Words) and not item.name
        )
        for pin in facts.pins:
            assert pin.finding.rule in told
            seen.add(pin.number)
        assert set(words(pages, "pin")) >= {str(pin.number) for pin in facts.pins}
    on_runs = {
        n for n, f in enumerate(findings, 1) if any(part.mark in f.pieces for part in layout(name).parts)
    }
    assert on_runs <= seen


def test_laps_are_hatched_on_the_piece_that_lies_over_and_hidden_ends_dashed() -> None:
    for facts, pages in runs("boat-shed"):
        first = [facts.parts[served[0][0]] for served in drawings(facts)]
        laps = sum(end.lap is not None for part in first for end in part.ends)
        dashed = [
            item
            for page in pages
            for item in page.items
            if isinstance(item, Stroke) and item.name == "hidden end"
        ]
        assert len(dashed) == laps
        notes = " ".join(words(pages, "end"))
        for own in (facts, *facts.twins):
            for part in own.parts:
                for lap in part.ends.laps:
                    assert f"{lap.lies} {lap.others[0]}" in notes


def test_merged_marks_are_few_where_two_rows_agree() -> None:
    facts, pages = next((facts, pages) for facts, pages in runs("boat-shed") if facts.run.trim == "ridge")
    part = facts.parts[1]
    rows = merged([screw.at for screw in facts.screws[part.mark]])
    assert len(rows) < len(facts.screws[part.mark])
    assert pages


def test_the_elevation_of_a_rake_stays_as_it_is(golden) -> None:  # type: ignore[no-untyped-def]
    from trimwright.viewer.drawings.ink.svg import svg_of

    _, pages = next((facts, pages) for facts, pages in runs("boat-shed") if facts.run.code == "R2")
    golden("boat-shed-R2.svg", svg_of(pages[0]))


def test_screws_that_stand_close_get_more_strips_and_upright_marks() -> None:
    plan = build(scene_from(CLOSE, "close.toml"))
    pins = pins_of(check(plan))
    counts = set()
    for run in plan.runs:
        facts = facts_of(plan, run, pins)
        pages = paged(plan, elevation(facts, box_of(plan).width))
        assert [(page.title, found) for page in pages for found in collisions(page)] == []
        own = [facts.parts[served[0][0]].mark for served in drawings(facts)]
        assert len(drawn(pages, "screw")) == sum(len(facts.screws[mark]) for mark in own)
        counts.add(scale_of(facts, 7.5).count)
        told = Counter(words(pages, "tape mark"))
        for part in (facts.parts[numbers[0]] for numbers in patterns(facts)):
            rows = merged([screw.at for screw in facts.screws[part.mark]])
            for at in rows:
                both = f"{plan.scene.tape(at)} | {plan.scene.tape(part.low + at)}"
                assert told[both] or told[plan.scene.tape(at)]
    assert max(counts) > 1
