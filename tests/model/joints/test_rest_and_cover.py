"""At every corner and lap: metal covers it but for the clearance, and what is on top lies close to what is under it."""

import pytest
from covered import assert_covered
from ordinary_roofs import ordinary
from solids import manifold
from zoo import NAMES, OTHERS, layout

from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

SOUND = [name for name in (*NAMES, *OTHERS) if name != "slip-shed"]
RANDOM = range(20, 26)


def assert_rests(plan: Layout) -> None:
    """Check that a piece on top lies on one of those under it: no more than 0.15 of a sheet off."""
    solids = {part.mark: manifold(part.solid) for part in plan.parts}
    for part in plan.parts:
        for end in part.ends:
            under = [mark for mark in end.others if mark in solids]
            if end.lies == "over" and under and end.kind.name in ("lap", "eave-rake", "hip head"):
                gap = min(solids[part.mark].min_gap(solids[mark], 1.0) for mark in under)
                assert gap <= 0.15 * plan.scene.metal.thickness, (part.mark, end.kind.name, gap)


@pytest.mark.parametrize("name", SOUND)
def test_metal_covers_every_corner_of_the_zoo(name: str) -> None:
    assert_covered(layout(name))


@pytest.mark.parametrize("name", SOUND)
def test_what_is_on_top_lies_close_in_the_zoo(name: str) -> None:
    assert_rests(layout(name))


@pytest.mark.parametrize("number", RANDOM)
def test_both_hold_on_ordinary_roofs(number: int) -> None:
    plan = build(scene_of(ordinary(number)))
    assert_covered(plan)
    assert_rests(plan)
