"""Placing: no text covers another one, leaves the picture or lies where nothing may."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from trimwright.viewer.display.placing import Box, Want, place

SIZE = (800.0, 500.0)

wants = st.lists(
    st.builds(
        lambda x, y, width, priority: Want(np.array([[x, y]]), width, 30.0, priority),
        st.floats(0, 800),
        st.floats(0, 500),
        st.floats(20, 180),
        st.integers(1, 9),
    ),
    max_size=25,
)


@given(wants)
def test_texts_never_overlap_nor_leave_the_picture(wants: list[Want]) -> None:
    taken = Box(500, 300, 800, 500)
    boxes = [spot.box for spot in place(wants, SIZE, 24.0, [taken]) if spot is not None]
    for i, box in enumerate(boxes):
        assert not box.overlaps(taken)
        assert box.left >= 0 and box.top >= 0 and box.right <= SIZE[0] and box.bottom <= SIZE[1]
        assert not any(box.overlaps(other) for other in boxes[:i])


def test_a_text_whose_places_are_all_hidden_is_left_out() -> None:
    assert place([Want(np.empty((0, 2)), 50, 20, 1)], SIZE, 20.0) == [None]


def test_a_text_for_which_there_is_no_room_is_left_out() -> None:
    assert place([Want(np.array([[50.0, 50.0]]), 200, 20, 1)], (100.0, 100.0), 20.0) == [None]


def test_what_matters_more_gets_its_room_first() -> None:
    crowd = [Want(np.array([[60.0, 50.0]]), 90, 30, rank) for rank in (1, 9, 5)]
    spots = place(crowd, (120.0, 100.0), 20.0)
    assert [spot is None for spot in spots] == [True, False, False]


def test_texts_keep_to_the_quiet_side() -> None:
    busy = np.zeros((50, 80))
    busy[:, 40:] = 1.0
    (spot,) = place([Want(np.array([[400.0, 250.0]]), 80, 30, 1)], SIZE, 24.0, busy=busy)
    assert spot is not None
    assert spot.box.right <= 405


def test_leaders_of_neighbors_do_not_cross() -> None:
    row = [Want(np.array([[200.0 + 30 * i, 250.0]]), 70, 30, 5) for i in range(6)]
    spots = [spot for spot in place(row, SIZE, 24.0) if spot is not None]
    assert len(spots) == 6
    leaders = [
        (np.array(s.anchor), np.array([(s.box.left + s.box.right) / 2, (s.box.top + s.box.bottom) / 2]))
        for s in spots
    ]

    def turn(a: np.ndarray, b: np.ndarray, c: np.ndarray) -> float:
        return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))

    for i, (a, b) in enumerate(leaders):
        for c, d in leaders[:i]:
            assert not (turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0)
