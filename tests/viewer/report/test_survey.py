"""What is told of a taped roof: how the tapes agree, what none tells, how crooked it is, and which to tape again."""

import math
from dataclasses import replace

from zoo import layout

from trimwright.model.checks.run import check
from trimwright.model.message import Length
from trimwright.model.survey.record import Doubt, Untold
from trimwright.viewer.report.survey import HEADINGS, rows_of, survey_told
from trimwright.viewer.report.terms import told_first


def test_a_roof_without_tapes_has_nothing_to_tell() -> None:
    assert not list(survey_told(layout("boat-shed")))


def test_a_crooked_roof_is_told_before_its_findings() -> None:
    found = layout("cooperage")
    told = [str(one) for one in told_first(found, check(found), found.scene.tape)]
    assert told[0] == "Rules: common practice."
    assert any(one.startswith("The roof is as it was taped: 13 measures, the largest misfit") for one in told)
    assert "No other tape checks these, so tape them twice: front pitch, back pitch." in told
    assert any('eaves that are taken for level: ridge, 3/8" out of level' in one for one in told)
    assert sum("face is out of square" in one for one in told) == 2
    assert sum(one.startswith("Panels taper from foot to top: ") for one in told) == 2


def test_only_what_reads_as_planned_is_told_to_stay_so() -> None:
    survey = layout("cooperage").survey
    assert survey is not None
    sizes = (
        Untold("back eave", "length", 400.0, 400.02, by_level=False),
        Untold("hip", "length", 180.0, 180.5, by_level=False),
        Untold("right pitch", "pitch", math.atan(6 / 12), math.atan(6.25 / 12), by_level=False),
        Untold("ridge", "tilt", -1e-13, -0.25, by_level=False),
    )
    told = [
        str(one) for one in survey_told(replace(layout("cooperage"), survey=replace(survey, untold=sizes)))
    ]
    stay = [one for one in told if "stay as planned" in one]
    assert len(stay) == 1 and "back eave" in stay[0] and "hip" not in stay[0] and "pitch" not in stay[0]
    assert [one for one in told if "rest of the form" in one] == [
        "No tape tells these; they follow from the rest of the form: hip 15' 0 1/2\" (planned: 15' 0\"), "
        'right pitch 6.25/12 (planned: 6/12), ridge, 1/4" out of level (planned: 0").'
    ]
    none = replace(layout("cooperage"), survey=replace(survey, untold=sizes[1:]))
    assert not any("stay as planned" in str(one) for one in survey_told(none))


def test_every_measure_has_a_row_with_what_to_do() -> None:
    survey = layout("cooperage").survey
    assert survey is not None
    rows = rows_of(survey)
    assert [row[0] for row in rows] == [tape.name for tape in survey.tapes]
    assert {len(row) for row in rows} == {len(HEADINGS)}
    assert rows[0][1] == Length(400.0)
    first = survey.tapes[0]
    doubted = replace(survey, doubts=(Doubt((first.name, "ridge"), 2.0),))
    assert str(rows_of(doubted)[0][-1]) == "may be wrong: tape it again"
    left = replace(survey, tapes=(replace(first, left_out=True), *survey.tapes[1:]))
    assert str(rows_of(left)[0][-1]) == "in doubt, left out: tape it again"
