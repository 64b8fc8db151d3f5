"""What findings say, by hand: where they point, and how much is to be done."""

import tomllib
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.measures import parse_length
from trimwright.model.message import Length
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

CASES = Path(__file__).parents[1] / "cases"


def told(rule: str, case: str) -> tuple[Layout, list[Finding]]:
    """Return the layout of a case, and what its rule finds there."""
    tables = tomllib.loads((CASES / rule / f"{case}.toml").read_text(encoding="utf-8"))
    layout = build(scene_of({key: value for key, value in tables.items() if key != "expect"}))
    return layout, [finding for finding in check(layout) if finding.rule == rule]


def test_a_vent_on_a_low_slope_is_shown_at_the_middle_of_its_run() -> None:
    layout, found = told("vent-on-low-slope", "fail-2-in-12")
    for finding in found:
        edge = layout.run(finding.where).edge
        middle = (edge.start + edge.end) / 2
        assert np.linalg.norm(finding.point - middle) < 6  # on the trim, a few inches from its edge
    assert found


def test_a_pilot_is_drilled_by_whole_64ths() -> None:
    _, (finding,) = told("wide-pilot", "fail-nearly-the-head")
    ((change,),) = finding.proposals
    assert isinstance(change.value, str)
    assert 64 % Fraction(change.value.removesuffix(" in")).denominator == 0


def test_a_piece_between_two_laps_is_made_so_much_longer_that_they_are_far_enough_apart() -> None:
    _, found = told("laps-in-one-place", "fail-short-piece")
    (finding,) = [one for one in found if "more" in dict(one.remedy.values)]
    more = dict(finding.remedy.values)["more"]
    assert isinstance(more, Length) and finding.measured is not None
    assert finding.measured + more.inches == pytest.approx(finding.limit.value)


@pytest.mark.parametrize("near", [0, 5, 6], ids=["at the low end", "beside the high end", "at the high end"])
def test_of_two_screws_that_crowd_each_other_the_ends_keep_theirs(near: int) -> None:
    marks = [6.0, 26.0, 46.0, 66.0, 86.0, 106.0, 119.0]
    crowded = sorted([*marks, marks[near] + (0.75 if near < 6 else -0.75)])
    tables = {
        "title": "Placed by hand",
        "roof": {"form": "gable", "length": "18'", "width": "14'", "pitch": "6/12"},
        "screws": {"placed": {"E1-1": crowded}},
    }
    (found,) = [one for one in check(build(scene_of(tables))) if one.rule == "screws-crowded"]
    ((change,), *_) = found.proposals
    assert isinstance(change.value, list)
    assert [parse_length(mark) for mark in change.value] == marks
