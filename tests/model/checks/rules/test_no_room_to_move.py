"""How far a fixed run moves is told as finely as it is compared."""

import re

from faulty_roofs import faulty

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of


def test_a_run_that_moves_a_hair_too_far_is_not_told_to_move_as_far_as_it_may() -> None:
    """14 ft 9 in of stainless steel over 160 F: 0.27 in, which a tape reads as the 1/4 in that is allowed."""
    told = [one for one in check(build(scene_of(faulty(3001)))) if one.rule == "no-room-to-move"]
    figures = [re.search(r"it moves (\S+) over .*, more than (\S+)\.$", str(one.message)) for one in told]
    assert [found and found.groups() for found in figures] == [('0.272"', '0.250"')] * 4
