"""Panels, closures and trim of a scene's own: refused with the place, told of in a finding, or sound."""

import pytest
from odd_forms import odd_forms
from slots import unsealed
from solids import depths
from sound import assert_sound

from trimwright.model.checks.run import check
from trimwright.model.errors import GeometryError, SceneError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of


@pytest.mark.parametrize("number", [183, 187, 199])
def test_the_flange_of_a_rib_begins_where_cleats_lap(number: int) -> None:
    """It and its bend lie lower than pans: a cleat's lap under a seam ran into them."""
    here = build(scene_of(odd_forms(number)))
    assert_sound(here)


def test_a_lip_too_short_is_the_cause_of_what_runs_into_the_trim() -> None:
    """A lip of 5/16 in: a panel's fold of 7/8 in under it runs into the face."""
    found = check(build(scene_of(odd_forms(7))))
    (cause,) = {one.group for one in found if one.rule == "hook-too-short"}
    assert {one.cause for one in found if one.rule == "panels-collide"} == {cause}


@pytest.mark.sweep
@pytest.mark.parametrize("number", range(300))
def test_three_hundred_odd_scenes(number: int) -> None:
    """Where nothing is refused and no error is found, nothing passes through anything and no slot is open."""
    try:
        here = build(scene_of(odd_forms(number)))
    except (SceneError, GeometryError) as error:
        assert all(str(problem) for problem in error.problems)
        return
    found = check(here)
    if not any(one.severity == "error" for one in found):
        assert depths(here) == []
        assert unsealed(here) == [] or "closure-gap" in {one.rule for one in found}
