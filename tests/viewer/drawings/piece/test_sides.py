"""Which side is up: a pattern that is the mirror image of its piece would be cut for the other hand."""

import numpy as np
import pytest
from numpy.typing import NDArray
from zoo import NAMES, OTHERS, layout

from trimwright.model.layout import Part
from trimwright.model.sheet.fold import strip_fold
from trimwright.viewer.data.dxf import document_of
from trimwright.viewer.data.pattern_lines import is_mirrored
from trimwright.viewer.drawings.piece.placement import Placement

CORNERS = np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]])


def turn(points: NDArray[np.float64]) -> float:
    """Return more than 0 when three points of the paper run counter-clockwise."""
    (ax, ay), (bx, by), (cx, cy) = points
    return float((bx - ax) * (cy - ay) - (by - ay) * (cx - ax))


def turn_on_roof(part: Part) -> float:
    """Return the same for three points of the sheet as they lie on the roof, seen from the painted side."""
    fold, normal = strip_fold(part.run.section, 0)
    space = (CORNERS @ fold[:, :2].T + fold[:, 2]) @ part.placement[:3, :3].T
    return float(np.cross(space[1] - space[0], space[2] - space[0]) @ (part.placement[:3, :3] @ normal))


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_patterns_show_the_painted_side(name: str) -> None:
    for part in layout(name).parts:
        place = Placement(0.0, (0.0, 0.0), 1.0, is_mirrored(part))
        assert turn(np.array(place(CORNERS))) * turn_on_roof(part) > 0, part.mark


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_files_say_which_side_they_show(name: str) -> None:
    """In the file x is ``u`` and y is ``v``: it shows the painted side when these turn as they do on the roof."""
    parts = {part.run.name: part for part in layout(name).parts}
    for part in parts.values():
        texts = [entity.dxf.text for entity in document_of(part).modelspace().query("TEXT")]
        painted_up = turn(CORNERS) * turn_on_roof(part) > 0
        assert ("drawn painted side up" in texts) == painted_up, part.mark


def test_hands() -> None:
    for name in NAMES:
        for part in layout(name).parts:
            assert part.run.hand is None or is_mirrored(part) == (part.run.hand == "right")
