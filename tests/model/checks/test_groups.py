"""Groups of findings: alike ones together, what follows under its cause, and none lost."""

import pytest
from zoo import NAMES, layout

from trimwright.model.checks.groups import FOLLOWS, ORDER, groups_of, marks_of
from trimwright.model.checks.run import RULES, check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from

SHORT = """title = "Rope walk"
[roof]
form = "gable"
length = "18'"
width = "17' 6\\""
pitch = "6/12"
[trim.eave]
start = "low"
[trim.rake]
start = "high"
"""


def test_rules_follow_from_rules_that_follow_from_none():
    names = {rule.RULE for rule in RULES}
    causes = {cause for rule in FOLLOWS for cause in FOLLOWS[rule]}
    assert set(FOLLOWS) | causes <= names
    assert not causes & set(FOLLOWS)


@pytest.mark.parametrize("name", NAMES)
def test_groups_are_numbered_as_they_are_read_and_alike(name):
    found = check(layout(name))
    groups = list(groups_of(found))
    assert [group[0].group for group in groups] == list(range(1, len(groups) + 1))
    for group in groups:
        assert len({(one.rule, one.severity, one.cause, one.accepted) for one in group}) == 1
        assert all(set(one.pieces) <= set(marks_of(group)) for one in group)


@pytest.mark.parametrize("name", NAMES)
def test_the_worst_comes_first_and_a_consequence_right_after_its_cause(name):
    groups = list(groups_of(check(layout(name))))
    families = [
        min(
            ORDER[other[0].severity] for other in groups if group[0].group in (other[0].group, other[0].cause)
        )
        for group in groups
        if group[0].cause is None
    ]
    assert families == sorted(families)
    for group in groups:
        if group[0].cause is not None:
            cause = groups[group[0].cause - 1]
            assert cause[0].rule in FOLLOWS[group[0].rule]
            beside = {name for one in group for name in one.beside}
            assert ORDER[cause[0].severity] <= ORDER[group[0].severity] or beside
            between = groups[group[0].cause : group[0].group - 1]
            assert all(one[0].cause == group[0].cause for one in between)
            assert beside & {one.where for one in cause} or {one.where for one in group} <= {
                one.where for one in cause
            }


def test_four_short_rakes_are_one_line_with_what_follows_under_it():
    found = check(build(scene_from(SHORT)))
    groups = list(groups_of(found))
    (short,) = (group for group in groups if group[0].rule == "short-end-piece")
    (low,) = (group for group in groups if group[0].rule == "short-piece-low")
    assert marks_of(short) == ("R1-1", "R2-1", "R3-1", "R4-1")
    assert len(short) == len(low) == 4
    assert (short[0].cause, low[0].cause) == (None, short[0].group)


def test_panels_that_collide_beside_a_bare_edge_stand_under_it_and_are_read_as_what_they_are():
    """The ends of bare rakes: nothing says where panels end there, and that they collide follows from it."""
    found = check(
        build(scene_from(SHORT.partition("[trim")[0].replace("18'", "40'") + "[trim]\nrake = false\n"))
    )
    groups = list(groups_of(found))
    (rakes,) = (group for group in groups if group[0].rule == "edge-without-trim")
    (collide,) = (group for group in groups if group[0].rule == "panels-collide")
    assert (rakes[0].severity, collide[0].severity) == ("warning", "error")
    assert rakes[0].group == 1 and collide[0].cause == 1
    assert all("left bare" in str(one.remedy) for one in collide)


def test_a_key_of_all_screws_is_one_line_whatever_trim_it_shows_on():
    far = "[screws]\nspacing = 30\n"
    groups = [
        group
        for group in groups_of(check(build(scene_from(SHORT + far))))
        if group[0].rule == "screw-spacing"
    ]
    assert len(groups) == 1
    assert {one.where for one in groups[0]} >= {"front eave", "ridge"}
