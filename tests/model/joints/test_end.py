"""Places along an end: measured in from its outermost metal, they are on the piece."""

import pytest
from zoo import layout


@pytest.mark.parametrize("name", ["uneven-hip", "boxed-gable"])
def test_an_inch_in_from_an_end_is_on_its_piece_and_an_inch_from_where_its_blank_ends(name: str) -> None:
    for part in layout(name).parts:
        begins, stops = part.sheet.extent
        assert part.ends.low.inward(1.0) == pytest.approx(begins + 1.0)
        assert part.ends.high.inward(1.0) == pytest.approx(stops - 1.0)
