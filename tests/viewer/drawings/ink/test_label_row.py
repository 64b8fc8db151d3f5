"""Labels in a row: in order, apart from each other, inside the row, and as near to their marks as can be."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx
from scipy.optimize import minimize

from trimwright.viewer.drawings.ink.label_row import spread

ROWS = st.lists(st.tuples(st.floats(-2, 12), st.floats(0.05, 1.5)), min_size=1, max_size=8)


@given(ROWS)
def test_labels_touch_neither_each_other_nor_the_ends(row: list[tuple[float, float]]) -> None:
    wanted, widths = sorted(at for at, _ in row), [width for _, width in row]
    places = spread(wanted, widths, 0.0, 10.0)
    if sum(widths) > 10.0 + 1e-9:
        assert places is None
        return
    assert places is not None
    edges = [
        edge for at, width in zip(places, widths, strict=True) for edge in (at - width / 2, at + width / 2)
    ]
    assert edges == approx(sorted(edges), abs=1e-9)
    assert edges[0] >= -1e-9
    assert edges[-1] <= 10 + 1e-9


@given(ROWS.filter(lambda row: sum(width for _, width in row) < 9.0))
def test_no_other_places_are_nearer(row: list[tuple[float, float]]) -> None:
    wanted, widths = np.array(sorted(at for at, _ in row)), np.array([width for _, width in row])
    places = spread(wanted.tolist(), widths.tolist(), 0.0, 10.0)
    assert places is not None
    apart = (widths[1:] + widths[:-1]) / 2
    found = minimize(
        lambda at: ((at - wanted) ** 2).sum(),
        np.array(places),
        jac=lambda at: 2 * (at - wanted),
        method="SLSQP",
        bounds=[(width / 2, 10 - width / 2) for width in widths],
        constraints={"type": "ineq", "fun": lambda at: np.diff(at) - apart},
    )
    cost = ((np.array(places) - wanted) ** 2).sum()
    assert cost <= found.fun + 1e-4


def test_labels_that_have_room_stand_on_their_marks() -> None:
    assert spread([1.0, 4.0, 8.0], [1.0, 1.0, 1.0], 0.0, 10.0) == [1.0, 4.0, 8.0]


def test_two_labels_on_one_mark_stand_either_side_of_it() -> None:
    assert spread([5.0, 5.0], [1.0, 2.0], 0.0, 10.0) == approx([4.25, 5.75])


def test_an_empty_row_has_no_labels() -> None:
    assert spread([], [], 0.0, 1.0) == []
