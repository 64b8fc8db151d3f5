"""Lines are broken at words, whichever way the words stand, and nowhere else."""

import pytest
import shapely
from collisions import box_of

from trimwright.viewer.drawings.ink.drawing import Stroke, Words
from trimwright.viewer.drawings.ink.lines_under_words import cleared

LINE = Stroke(((0.0, 0.0), (10.0, 0.0)), name="seam")


@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0])
@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
def test_a_line_stays_off_the_words(angle: float, anchor: str) -> None:
    words = Words("front eave", (5.0, 0.03 if anchor == "end" else -0.03), 0.12, anchor, angle)  # type: ignore[arg-type]
    parts = [item for item in cleared([LINE, words], ("seam",)) if isinstance(item, Stroke)]
    lines = shapely.MultiLineString([part.points for part in parts])
    assert len(parts) == 2
    assert lines.distance(box_of(words)) > 0.01
    assert 10.0 - lines.length < 1.2
    assert {part.name for part in parts} == {"seam"}


def test_other_lines_and_far_words_change_nothing() -> None:
    far, near = Words("far", (5.0, 3.0)), Words("near", (5.0, 0.0))
    assert cleared([LINE, far], ("seam",)) == [LINE, far]
    assert cleared([LINE, near], ("lap",)) == [LINE, near]


def test_a_line_under_the_words_goes_away() -> None:
    assert cleared(
        [Stroke(((5.1, 0.02), (5.2, 0.02)), name="lap"), Words("words", (5.0, 0.0))], ("lap",)
    ) == [Words("words", (5.0, 0.0))]
