"""Packing: small sheets fill pages before those that do not fit any more."""

from trimwright.viewer.drawings.paper.flow import Block, kept
from trimwright.viewer.drawings.paper.packing import packed

PAGE = 8.0


def sheets(*heights: float) -> list[list[Block]]:
    return [[Block(height, ())] for height in heights]


def test_a_small_sheet_goes_before_one_that_does_not_fit() -> None:
    assert packed([], sheets(5, 6, 3, 2), PAGE, PAGE) == [0, 2, 1, 3]


def test_sheets_that_all_fit_stay_in_their_order() -> None:
    assert packed([], sheets(4, 4, 4, 4), PAGE, PAGE) == [0, 1, 2, 3]


def test_what_is_left_of_the_page_before_is_filled_first() -> None:
    assert packed([], sheets(5, 3, 2), 2.5, PAGE) == [2, 0, 1]


def test_words_over_all_stand_over_the_first() -> None:
    assert packed([Block(1, (), keep=True)], sheets(5, 3, 2), 3.5, PAGE) == [2, 0, 1]


def test_a_sheet_that_goes_on_leaves_room_under_its_end() -> None:
    """By hand: of 6 + 5 the second row goes on, 5 and its head of 1; then 2 fits before 3 does."""
    long = kept([Block(6, ()), Block(5, (), head=Block(1, ()))])
    assert packed([], [long, *sheets(3, 2)], PAGE, PAGE) == [0, 2, 1]
