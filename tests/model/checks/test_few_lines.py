"""On sensible roofs there is little to read, and none of it about what the tool itself has chosen."""

import pytest
from sensible_roofs import sensible

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

SLICE, ALL = range(8), range(1000)
LEFT = {"laps-in-one-place"}
"""The rule that still speaks of the tool's own layout, on one roof in a thousand: each of the first seams that are
tried there meets a lap or a screw."""


def lines_of(number: int) -> list[str]:
    """Return the rule of each line that is read about a sensible roof."""
    return [group[0].rule for group in groups_of(check(build(scene_of(sensible(number)))))]


@pytest.mark.parametrize("number", SLICE)
def test_a_sensible_roof_has_nothing_to_say_but_what_is_known(number: int) -> None:
    assert set(lines_of(number)) <= LEFT


@pytest.mark.sweep
def test_sensible_roofs_have_few_lines() -> None:
    lines = [lines_of(number) for number in ALL]
    assert sum(map(len, lines)) <= len(lines) / 100
    assert {rule for own in lines for rule in own} <= LEFT
