"""Where two lines of closures leave a slot between them."""

from odd_forms import odd_forms
from slots import unsealed

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of


def test_a_slot_between_a_ridge_and_a_hip_is_told_where_they_meet() -> None:
    """Strips of foam 1/2 in deep under seams of 2 5/8 in: the ridge's line ends 1 in short of two of the hips'."""
    here = build(scene_of(odd_forms(186)))
    assert unsealed(here)
    told = [str(one.message) for one in check(here) if one.rule == "closure-gap"]
    assert told == [
        'ridge, 0" along: its closures end 1" from those under the front-left hip.',
        'ridge, 13\' 0" along: its closures end 1" from those under the back-right hip.',
    ]
