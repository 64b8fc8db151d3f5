"""Joints against sheets worked out on paper: every corner of the cut, and every length that the steps name."""

from math import atan, degrees

import numpy as np
import shapely
from by_hand import CLOSE, Worked, eave_rake, hip_foot, peak_over, peak_under
from pytest import approx
from zoo import layout

from trimwright.model.joints.end import End
from trimwright.model.layout import Part


def part_of(name: str, mark: str) -> Part:
    return next(part for part in layout(name).parts if part.mark == mark)


def corners(part: Part, end: End) -> list[tuple[float, float]]:
    """Return the corners of an end, those on a straight line left out."""
    edge = shapely.LineString(end.cut.edge - [part.low, 0.0])
    return [tuple(point) for point in shapely.get_coordinates(edge.simplify(1e-4)).tolist()]


def check(part: Part, end: End, worked: Worked) -> None:
    """Check an end's edge and the lengths of its steps."""
    edge = shapely.LineString(corners(part, end))
    assert edge.hausdorff_distance(shapely.LineString(worked.points)) < CLOSE
    named = {name: value for step in end.steps for name, value in step.lengths.items()}
    assert named == approx(worked.lengths, abs=CLOSE)


def test_eave_rake_corner() -> None:
    part, worked = part_of("shallow-eave", "R1-1"), eave_rake()
    check(part, part.ends.low, worked)
    assert np.array(corners(part, part.ends.low)) == approx(np.array(worked.points), abs=CLOSE)
    assert part.low == approx(worked.low, abs=CLOSE)
    assert degrees(part.sheet.tabs[0].angle) == approx(90, abs=0.1), "two plumb faces at a square corner"


def test_peak_the_piece_on_top() -> None:
    part = part_of("shallow-eave", "R2-2")
    check(part, part.ends.high, peak_over())


def test_peak_the_piece_underneath() -> None:
    part = part_of("shallow-eave", "R1-2")
    check(part, part.ends.high, peak_under())


def test_hip_foot() -> None:
    part, worked = part_of("bakehouse", "H1-1"), hip_foot()
    check(part, part.ends.low, worked)
    assert part.run.section.width == approx(worked.width, abs=1e-3)
    assert part.low == approx(worked.low, abs=CLOSE)
    # A level fold between the wing, at 8 in 12 from level, and a plumb flap:
    assert [degrees(tab.angle) for tab in part.sheet.tabs] == approx(
        [90 - degrees(atan(8 / 12))] * 2, abs=0.1
    )
