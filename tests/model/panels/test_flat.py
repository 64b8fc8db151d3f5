"""A face laid flat: what its pans cover, against the same polygon grown by shapely."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from zoo import layout

from trimwright.model.panels.flat import Border, pan_area

EDGE = layout("boat-shed").roof.edges[0]


@pytest.mark.parametrize("rise", [0.0, 0.5, 6.0, 40.0])
@pytest.mark.parametrize("out", [-1.5, 0.0, 1.0])
def test_sides_that_all_move_as_far_meet_where_a_mitered_offset_has_them(rise: float, out: float) -> None:
    """A face of 200 by 100 in whose upper side is bent in the middle, by none to 44 degrees: one corner there."""
    corners = [(0, 0), (200, 0), (200, 100), (100, 100 + rise), (0, 100)]
    ring = [
        side(np.array(start, float), np.array(end, float), out) for start, end in pairwise([*corners, (0, 0)])
    ]
    area = pan_area([ring])
    wanted = shapely.Polygon(corners).buffer(out, join_style="mitre", mitre_limit=10)
    assert area.symmetric_difference(wanted).area < 1e-6
    assert len(area.normalize().exterior.coords) == len(corners) + 1


def side(start: np.ndarray, end: np.ndarray, out: float) -> Border:
    """Return a side of a face whose pans end ``out`` inches beyond its deck."""
    along = (end - start) / np.linalg.norm(end - start)
    normal = np.array([along[1], -along[0]])
    deck = float(normal @ start)
    return Border(EDGE, start, along, normal, deck, deck + out, "plain", None)
