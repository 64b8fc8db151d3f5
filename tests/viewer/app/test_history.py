"""Taking back and making again."""

from hypothesis import given
from hypothesis import strategies as st

from trimwright.viewer.app.history import DEEPEST, History


@given(st.lists(st.text(max_size=3), max_size=20))
def test_undoing_all_and_redoing_all_comes_back_to_the_same(texts: list[str]) -> None:
    history = History("start")
    for text in texts:
        history = history.changed(text)
    last = history.text
    for _ in texts:
        history = history.undone()
    assert history.text == "start" and not history.past
    for _ in texts:
        history = history.redone()
    assert history.text == last and not history.future


def test_one_touch_is_one_change() -> None:
    history = History("a").changed("ab", "t1").changed("abc", "t1")
    assert history.undone().text == "a"
    assert history.changed("abcd", "t2").undone().text == "abc"


def test_a_touch_does_not_reach_over_an_undo() -> None:
    history = History("a").changed("ab", "t1").undone().changed("ac", "t1")
    assert history.undone().text == "a"


def test_a_change_forgets_what_was_taken_back() -> None:
    assert History("a").changed("b").undone().changed("c").redone().text == "c"


def test_the_past_is_bounded() -> None:
    history = History("0")
    for number in range(2 * DEEPEST):
        history = history.changed(str(number + 1))
    assert len(history.past) == DEEPEST
