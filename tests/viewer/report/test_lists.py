"""Piece list, short pieces, sentences and tables."""

import io

import pytest
from rich.console import Console
from zoo import layout

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.run import check, why
from trimwright.model.scene.read import scene_from
from trimwright.model.units import Tape
from trimwright.viewer.report.short import short_pieces, spot_of
from trimwright.viewer.report.starts import STARTS, layouts_by_start, started, starts_table
from trimwright.viewer.report.tables import print_findings, print_summary
from trimwright.viewer.report.words import lengths_of, marks_of, sentence_of, totals
from trimwright.viewer.words.speaker import Speaker


def test_a_short_piece_is_told_in_a_sentence() -> None:
    plan = layout("net-loft")
    parts = [part for part in plan.parts if part.run.name == "front eave"]
    assert str(spot_of(parts[1], 3).at) == "as no. 2 of 3"
    assert str(spot_of(parts[2], 3).at) == "at the right end"


def test_short_pieces_land_where_the_rule_puts_them() -> None:
    assert {
        str(piece.spot.name) for piece in short_pieces(layout("net-loft")) if piece.mark.startswith("R")
    } == {"high end"}
    by_start = layouts_by_start(layout("net-loft").scene)
    wheres = {
        start: {str(piece.spot.name) for piece in short_pieces(there) if piece.mark.startswith("R")}
        for start, there in by_start.items()
    }
    assert wheres["high"] == {"low end"}
    assert wheres["even"] == set()
    eaves = {str(piece.spot.name) for piece in short_pieces(by_start["low"]) if piece.mark.startswith("E")}
    assert eaves == {"right end"}


def test_starting_rules_set_aside_what_was_placed_by_hand() -> None:
    scene = layout("slip-shed").scene
    assert any(override and override.pieces for override in scene.run.values())
    for start in STARTS:
        changed = started(scene, start)
        assert all(override is None or override.pieces is None for override in changed.run.values())
        rake = changed.trim["rake"]
        assert rake is not None and rake.start == start
        assert changed.screws.placed == {}


def test_the_table_of_starting_rules_has_a_row_each() -> None:
    table = starts_table(layouts_by_start(layout("net-loft").scene))
    assert list(table.columns[0].cells) == list(STARTS)
    assert dict(zip(STARTS, table.columns[2].cells, strict=True))["even"] == "none"
    assert [int(str(cell)) for cell in table.columns[1].cells] == [17] * len(STARTS)


def test_sentences() -> None:
    plan = layout("slip-shed")
    findings = check(plan)
    accepted = [finding for finding in findings if finding.accepted]
    assert accepted
    for finding in findings:
        words = str(sentence_of(finding, plan.scene.tape))
        assert words.startswith(f"{finding.message} {why(finding)} {finding.remedy} (Limit: ")
        assert "(Limit: " in words and "\n" not in words and ".." not in words
        assert words.endswith(f"Accepted: {finding.accepted.rstrip('.')}." if finding.accepted else ".)")
    assert str(totals(())) == "no findings"
    assert str(totals(findings)).endswith("1 note")


def test_lengths_that_follow_each_other_are_counted_together() -> None:
    assert lengths_of([126, 126, 34, 126], Tape()) == "2 x 10' 6\" + 2' 10\" + 10' 6\""
    assert lengths_of([], Tape()) == ""


def test_two_rows_share_their_marks() -> None:
    assert marks_of([6, 25, 6, 25.01], Tape()) == '6", 2\' 1"'


@pytest.mark.parametrize("width", [30, 48, 80, 200])
@pytest.mark.parametrize("name", ["slip-shed", "harbor-office"])
def test_a_summary_fits_any_terminal(name: str, width: int) -> None:
    out = io.StringIO()
    to = Console(file=out, width=width, force_terminal=True, markup=False, color_system=None)
    print_summary(to, layout(name), check(layout(name)))
    lines = out.getvalue().splitlines()
    assert max(len(line) for line in lines) <= width
    told = "".join(out.getvalue().split())
    for run in layout(name).runs:
        assert "".join(run.name.split()) in told


def test_square_brackets_are_no_markup() -> None:
    text = 'title = "Shed [bold]7[/] :house:"\n[roof]\nform = "shed"\nlength = 200\nwidth = 120\npitch = "4/12"\n'
    from trimwright.model.pipeline import build

    out = io.StringIO()
    to = Console(file=out, width=100, markup=False, highlight=False, emoji=False)
    print_summary(to, build(scene_from(text)), ())
    assert "Shed [bold]7[/] :house:" in out.getvalue()


def test_a_long_list_is_cut_and_says_so() -> None:
    out = io.StringIO()
    findings = check(layout("slip-shed"))
    print_findings(Console(file=out, width=100), findings, Speaker(), most=3)
    left = len(findings) - sum(len(group) for group in list(groups_of(findings))[:3])
    assert f"and {left} more in report.json" in out.getvalue()
