"""Features: lines of the flat sheet lie on the folded metal."""

import numpy as np
import pytest
import trimesh
from zoo import NAMES, layout

from trimwright.model.layout import Part
from trimwright.viewer.display.features import traced, work_at


def far_off(part: Part, points: np.ndarray) -> float:
    """Return how far the farthest of some points is from a piece's metal, inches."""
    triangles = part.solid.vertices[part.solid.faces]
    far = []
    for point in points:
        nearest = trimesh.triangles.closest_point(triangles, np.tile(point, (len(triangles), 1)))
        far.append(np.linalg.norm(nearest - point, axis=1).min())
    return float(max(far))


@pytest.mark.parametrize("name", NAMES)
def test_every_fold_lies_on_the_metal(name: str) -> None:
    roof = layout(name)
    for part in roof.parts:
        for end in part.ends:
            for step in end.steps:
                if step.verb != "fold":
                    continue
                for line in step.lines:
                    points, _ = traced(part, line)
                    assert far_off(part, points) < 0.05, (part.mark, end.kind.name, str(step.says))


def test_a_line_across_a_bend_turns_with_it() -> None:
    part = next(part for part in layout("boat-shed").parts if part.mark == "R1-1")
    section = part.sheet.section
    points, normals = traced(part, [(50.0, 0.5), (50.0, section.width - 0.05)])
    assert len(points) == 2 * section.strips
    for bend in section.bends:
        before, after = normals[2 * (bend.first - 1)], normals[2 * bend.last]
        assert before @ after == pytest.approx(np.cos(bend.angle), abs=1e-6)
    gaps = np.linalg.norm(points[2::2] - points[1:-1:2], axis=1)
    assert gaps.max() < 0.03, "pieces of the line meet at the bends"


def test_the_tab_of_the_eave_corner_is_as_wide_as_asked() -> None:
    part = next(part for part in layout("boat-shed").parts if part.mark == "R1-1")
    (tab,) = part.ends.low.cut.tabs
    assert tab is part.ends.low.tab
    assert not part.ends.high.cut.tabs
    assert tab.width == pytest.approx(3 / 8)


def test_work_numbers_agree_between_metal_and_words() -> None:
    part = next(part for part in layout("harbor-office").parts if part.mark == "H1-2")
    labels, lines, told = work_at(part, part.ends.high)
    assert {label.text for label in labels} <= {str(entry.number) for entry in told}
    assert all(line.kind == "cut" and line.mark == "H1-2" for line in lines)


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_told_beside_a_corner_and_what_is_drawn_has_its_number(name: str) -> None:
    for part in layout(name).parts:
        for end in part.ends:
            labels, _, told = work_at(part, end)
            assert [one.number for one in told] == list(range(1, len(end.steps) + 1))
            assert {str(label.text) for label in labels} <= {str(one.number) for one in told}
