"""From a straight end of stock to the finished end, cut by cut, at every end of every scene."""

from functools import cache
from itertools import pairwise

import numpy as np
import pytest
import shapely
from pytest import approx
from zoo import NAMES, OTHERS, layout

from trimwright.model.joints.end import End
from trimwright.model.layout import Part
from trimwright.viewer.drawings.piece.progress import EndState, end_states

ALL = [*NAMES, *OTHERS]


@cache
def worked(name: str) -> list[tuple[Part, End, tuple[EndState, ...]]]:
    """Return how each end of a scene is made, from stock to the finished end."""
    return [(part, end, end_states(part, end)) for part in layout(name).parts for end in part.ends]


@pytest.mark.parametrize("name", ALL)
def test_work_begins_with_stock_and_ends_with_the_sheet(name: str) -> None:
    for part, end, work in worked(name):
        edge = end.cut.edge
        first = work[0].metal
        box = shapely.box(edge[:, 0].min(), 0.0, edge[:, 0].max(), part.run.section.width)
        assert box.difference(first).area == approx(0.0, abs=1e-6), (part.mark, end.at)
        last = work[-1]
        flaps = [shapely.Polygon(np.concatenate([tab.hinge, tab.flap])) for tab in last.folded]
        finished = part.sheet.pattern.difference(shapely.union_all(flaps))
        assert last.metal.symmetric_difference(finished).area < 0.05, (part.mark, end.at)


@pytest.mark.parametrize("name", ALL)
def test_metal_only_comes_off_and_only_with_a_cut(name: str) -> None:
    for _, _, work in worked(name):
        for before, after in pairwise(work):
            folded = len(before.folded) < len(after.folded)
            assert before.metal.area >= after.metal.area - 1e-6
            if before.step.verb not in ("cut", "fold"):
                assert before.metal.equals(after.metal)
            assert folded == bool(before.folds)
            assert before.step.verb == "fold" or not before.folds


@pytest.mark.parametrize("name", ALL)
def test_every_part_of_the_edge_is_on_the_line_of_a_cut(name: str) -> None:
    for part in layout(name).parts:
        for end in part.ends:
            cuts = [shapely.LineString(line) for s in end.steps if s.verb == "cut" for line in s.lines]
            lines = shapely.union_all(cuts)
            edge = shapely.LineString(end.cut.edge).segmentize(0.1)
            far = shapely.distance(lines, shapely.points(shapely.get_coordinates(edge)))
            assert far.max() < 1 / 32, (part.mark, end.at, far.max())


def test_a_rake_loses_its_corner_only_when_the_last_cut_frees_it() -> None:
    part = next(part for part in layout("boat-shed").parts if part.mark == "R1-1")
    work = end_states(part, part.ends.low)
    freed = [str(stage.step.says) for stage in work if not stage.waste.is_empty and stage.waste.area > 3]
    assert len(freed) == 1
    assert "upper corner" in freed[0]
    turned = [stage for stage in work if stage.step.verb == "fold"]
    assert len(turned) == 1
    assert turned[0].folds[0] == approx(part.sheet.tabs[0].hinge)
