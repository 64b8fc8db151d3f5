import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from trimwright.viewer.drawings.ink.letters import plain, shortened, width_of, wrapped
from trimwright.viewer.words.unbroken import unbroken


@pytest.mark.parametrize(
    ("text", "bold", "widths"),
    [
        pytest.param(
            "iiii", False, 4 * 222, id="i is 222 of 1000 wide in the standard font's published metrics"
        ),
        pytest.param("WWW", False, 3 * 944, id="W is 944"),
        pytest.param("012", False, 3 * 556, id="figures are 556"),
        pytest.param("iii", True, 3 * 278, id="i is 278 in bold"),
    ],
)
def test_width_is_the_sum_of_the_letters(text: str, bold: bool, widths: int) -> None:
    assert width_of(text, 0.5, bold) == approx(widths / 1000 * 0.5)


def test_signs_that_the_fonts_lack_are_written_in_those_they_have() -> None:
    assert plain("6′ → Łódź ≤ 45°") == "6' -> Lódz <= 45°"
    assert plain("日") == "?"


@given(st.text("abc défg ", max_size=60), st.floats(0.3, 3.0))
def test_wrapped_lines_fit_and_keep_every_word(text: str, room: float) -> None:
    lines = wrapped(text, 0.11, room)
    assert all(width_of(line, 0.11) <= room or len(line) == 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_a_length_is_not_broken() -> None:
    length = unbroken("10' 6 3/8\"")
    lines = wrapped(f"Mark it at {length} from the low end", 0.11, 1.0)
    assert any(length in line for line in lines)


def test_shortened_text_fits_and_says_that_it_was_longer() -> None:
    assert shortened("short", 0.1, 5.0) == "short"
    short = shortened("much too long a title for its place", 0.1, 1.0)
    assert short.endswith("...")
    assert width_of(short, 0.1) <= 1.0
