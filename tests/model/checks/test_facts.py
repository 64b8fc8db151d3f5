"""What rules ask of a layout: rows of screws, widths to the outside, heights in a lap, places in words."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from trimwright.model.checks.facts import along, and_more, facts_of, height_over, outside_width, point_on
from trimwright.model.checks.run import check
from trimwright.model.errors import TrimwrightError
from trimwright.model.message import message
from trimwright.model.pipeline import build
from trimwright.model.profiles.catalogue import profile_called
from trimwright.model.scene.read import scene_from

HIP = 'title = "Smokehouse"\n[roof]\nform = "hip"\nlength = "24\'"\nwidth = "16\'"\npitch = "6/12"\n'


@pytest.fixture(scope="module")
def facts():
    return facts_of(build(scene_from(HIP)))


def test_every_piece_is_in_its_run_from_the_low_end(facts):
    assert sum(len(spans) for spans in facts.spans.values()) == len(facts.layout.parts)
    for spans in facts.spans.values():
        assert [span.part.piece.number for span in spans] == list(range(1, len(spans) + 1))
        assert all(a.low < b.low < a.high < b.high for a, b in pairwise(spans))


def test_every_screw_is_in_a_row_of_the_leg_it_goes_through(facts):
    assert sum(len(row.at) for rows in facts.rows.values() for row in rows) == len(facts.layout.screws)
    for part in facts.layout.parts:
        for row in facts.rows[part.mark]:
            v = part.sheet.section.v
            assert v[row.leg.strip] < row.across < v[row.leg.strip + 1]
            assert row.leg.fastened
            assert row.metal[0] < row.at[0] and row.at[-1] < row.metal[1]
        assert len(facts.rows[part.mark]) == (2 if part.run.trim in ("ridge", "hip") else 1)


def test_legs_are_as_wide_as_their_profile_says(facts):
    for run in facts.layout.runs:
        profile = profile_called(run.section.profile, {}, run.trim, "")
        for leg, asked in zip(run.section.legs, profile.legs, strict=True):
            assert outside_width(run.section, leg) == pytest.approx(asked.width, abs=0.01)


def test_in_a_lap_the_piece_on_top_lies_one_sheet_higher(facts):
    thickness = facts.layout.scene.metal.thickness
    for name in facts.spans:
        for lower, upper in facts.laps(name):
            height = height_over(lower, upper)
            assert abs(height) == pytest.approx(thickness, abs=thickness / 4)
            assert (height > 0) == (upper.part.piece.lies == "over")


def test_places_are_said_the_way_an_installer_says_them(facts):
    hip = next(run for run in facts.layout.runs if run.trim == "hip")
    eave = next(run for run in facts.layout.runs if run.trim == "eave")
    assert str(along(hip, 66.0)) == "5' 6\" up"
    assert str(along(eave, 66.0)) == "5' 6\" along"
    assert str(along(eave, -1.5)) == '1 1/2" past the corner'
    assert str(along(eave, eave.length + 2)) == '2" past the corner'


def test_a_point_on_a_run_is_on_its_metal(facts):
    for run in facts.layout.runs:
        points = np.concatenate([span.part.solid.vertices for span in facts.spans[run.name]])
        reach = points @ run.edge.direction
        near = point_on(run, run.length / 2)
        assert reach.min() < near @ run.edge.direction < reach.max()


def test_one_speaks_for_many():
    told = [str(and_more(message("it leaks"), count)) for count in (1, 2, 5)]
    assert told == ["it leaks", "it leaks (1 more like it)", "it leaks (4 more like it)"]


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    form=st.sampled_from(["gable", "hip", "shed"]),
    length=st.integers(6, 60),
    width=st.integers(6, 40),
    pitch=st.sampled_from(["0.25/12", "1/12", "4/12", "9/12", "18/12"]),
    stock=st.integers(30, 300),
    lap=st.sampled_from([0.5, 2, 4, 12]),
    start=st.sampled_from(["low", "high", "centered", "even", "shared"]),
    rules=st.sampled_from(["common practice", "high wind", "code minimum"]),
)
def test_whatever_can_be_built_can_be_checked(form, length, width, pitch, stock, lap, start, rules):
    text = (
        f'title = "Any"\n[roof]\nform = "{form}"\nlength = "{length} ft"\nwidth = "{width} ft"\npitch = "{pitch}"\n'
        f'[metal]\nstock = [{stock}]\n[rules]\nset = "{rules}"\n'
        + "".join(
            f'[trim.{kind}]\nlap = {lap}\nstart = "{start}"\n'
            for kind in ("eave", "rake", "ridge", "hip", "high")
        )
    )
    try:
        layout = build(scene_from(text))
    except TrimwrightError:
        return
    for finding in check(layout):
        assert np.isfinite(finding.point).all()
        assert finding.measured is None or np.isfinite(finding.measured)
