"""What rules propose, by hand."""

import pytest

from trimwright.model.checks.proposals import stock_up_to
from trimwright.model.measures import parse_length
from trimwright.model.scene.read import scene_of


@pytest.mark.parametrize(
    ("stock", "most", "left"),
    [
        ([96, 120], 120.0, None),
        ([96, 120], 119.0, [96]),
        ([96, 120], 96.0, [96]),
        ([96, 120], 90.03, [90]),
        ([120], 90.03, [90]),
    ],
    ids=["none is too long", "one is", "one is just as long", "all are: sheared", "the only one is"],
)
def test_stock_that_is_too_long_is_left_out_or_sheared(
    stock: list[float], most: float, left: list[float] | None
) -> None:
    roof = {"form": "shed", "length": 200, "width": 100, "pitch": "6/12"}
    proposed = stock_up_to(scene_of({"title": "Shed", "roof": roof, "metal": {"stock": stock}}), most)
    assert [[parse_length(one, "in") for one in change.value] for (change,) in proposed] == (
        [] if left is None else [left]
    )
