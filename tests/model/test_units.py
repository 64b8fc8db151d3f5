"""Lengths and pitches as people write them, and lengths as a tape reads them."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimwright.model.measures import MeasureError, parse_length, parse_pitch
from trimwright.model.units import Tape, millimeters, tape


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12' 6 3/8\"", 150.375),
        ("12'6 3/8\"", 150.375),
        ("12'-6 3/8\"", 150.375),
        ("12' 6-3/8\"", 150.375),
        ("12′ 6⅜″", 150.375),
        ("12’ 6⅜”", 150.375),
        ("12 ft 6 3/8 in", 150.375),
        ("12 feet 6 inches", 150),
        ("12' 6", 150),
        ("12'", 144),
        ("6 3/8 in", 6.375),
        ('6-3/8"', 6.375),
        ("6''", 6),
        ("6.375 in.", 6.375),
        ("½ in", 0.5),
        ("2½ in", 2.5),
        (".5in", 0.5),
        ("2 ft", 24),
        ("2.5 FT", 30),
        ("3810 mm", 150),
        ("381 cm", 150),
        ("3.81 m", 150),
        ("3 mm", 3 / 25.4),
        ("7", 7),
        ("3/8", 0.375),
        ("-4", -4),
        ("−4 in", -4),
        ("-1' 6\"", -18),
        ("  6  3/8   in ", 6.375),
        ("6\u00a03/8\u202fin", 6.375),
    ],
)
def test_reads_what_people_write(text: str, inches: float) -> None:
    assert parse_length(text) == pytest.approx(inches, rel=1e-15)


@pytest.mark.parametrize(
    ("unit", "inches"),
    [("in", 3.5), ("ft", 42.0), ("mm", 3.5 / 25.4), ("cm", 3.5 / 2.54), ("m", 3500 / 25.4)],
)
@pytest.mark.parametrize("bare", [3.5, "3.5", "3 1/2"])
def test_a_bare_number_is_in_the_unit_that_is_asked_for(bare: object, unit: str, inches: float) -> None:
    assert parse_length(bare, unit) == pytest.approx(inches, rel=1e-15)


def test_a_unit_written_out_wins_over_the_one_for_bare_numbers() -> None:
    assert parse_length("6 in", "mm") == 6


@pytest.mark.parametrize(
    "nonsense",
    [
        "",
        " ",
        "in",
        "'",
        '"',
        "foo",
        "4 furlongs",
        "nan",
        "inf",
        "-inf",
        "1e3",
        "3,2 m",
        "3,810 mm",
        "1/0",
        "6 3/0 in",
        "1 2 3",
        "6 3/8 3/8",
        "6 in 3 ft",
        "--4",
        "4 4",
        "12' 6' 3",
        "5 m 3",
        "٣ mm",
        "1" * 61,
        "0x10",
        math.nan,
        math.inf,
        -math.inf,
        1e13,
        10**400,
        True,
        None,
        [4],
        {"length": 4},
        b"4",
    ],
)
def test_refuses_nonsense_and_says_what_it_takes(nonsense: object) -> None:
    with pytest.raises(ValueError, match=r"is not a length; write 12' 6 3/8\", 6 3/8 in, .*bare number"):
        parse_length(nonsense, "mm")


def test_the_refusal_quotes_what_came_and_names_the_unit_of_bare_numbers() -> None:
    with pytest.raises(ValueError) as caught:
        parse_length("4 furlongs", "cm")
    assert str(caught.value) == (
        "4 furlongs is not a length; write 12' 6 3/8\", 6 3/8 in, 3810 mm, 3.2 m, 2 ft "
        "or a bare number (centimeters)"
    )


def test_a_refusal_stays_on_one_short_line() -> None:
    with pytest.raises(ValueError) as caught:
        parse_length("4\n" * 10_000)
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 200


@pytest.mark.parametrize(
    ("inches", "reading"),
    [
        (0, '0"'),
        (6, '6"'),
        (6.375, '6 3/8"'),
        (0.5, '1/2"'),
        (12, "1' 0\""),
        (12.5, "1' 0 1/2\""),
        (24, "2' 0\""),
        (150.375, "12' 6 3/8\""),
        (11.98, "1' 0\""),
        (11.96, '11 15/16"'),
        (1 / 32, '1/16"'),
        (3 / 32, '1/8"'),
        (1 / 32 - 1e-6, '0"'),
        (-0.5, '-1/2"'),
        (-150.375, "-12' 6 3/8\""),
        (-1 / 32, '-1/16"'),
        (-1e-9, '0"'),
    ],
)
def test_reads_like_a_tape(inches: float, reading: str) -> None:
    assert tape(inches) == reading


@pytest.mark.parametrize(
    ("denominator", "reading"),
    [(2, '6 1/2"'), (4, '6 1/4"'), (8, '6 3/8"'), (32, '6 11/32"'), (64, '6 11/32"')],
)
def test_the_finest_fraction_can_be_chosen(denominator: int, reading: str) -> None:
    assert tape(6.34375, denominator) == reading


def test_rounding_noise_does_not_hide_a_half() -> None:
    assert tape(3 / 32 - 1e-12) == tape(3 / 32) == '1/8"'


@pytest.mark.parametrize(
    ("inches", "reading"),
    [
        (150, "3810 mm"),
        (0, "0 mm"),
        (0.5 / 25.4, "1 mm"),
        (-1, "-25 mm"),
        (-0.4 / 25.4, "0 mm"),
        (1e-9, "0 mm"),
    ],
)
def test_millimeters_are_whole_and_a_half_goes_up(inches: float, reading: str) -> None:
    assert millimeters(inches) == reading


def test_a_tape_writes_the_way_it_is_made() -> None:
    assert Tape()(6.34375) == '6 3/8"'
    assert Tape("feet", 4)(6.34375) == '6 1/4"'
    assert Tape("mm")(6.34375) == "161 mm"
    assert Tape().fine(0.0239) == '0.024"'
    assert Tape("mm").fine(0.0239) == "0.61 mm"
    assert (Tape().rough(1927.0), Tape("mm").rough(1927.0)) == ("161 ft", "49 m")


@pytest.mark.parametrize(
    ("slope", "rise", "angle"),
    [
        (math.atan(0.5), "6/12", "26.57°"),
        (math.atan(7.5 / 12), "7.5/12", "32.01°"),
        (math.radians(40), "10.07/12", "40°"),
    ],
)
def test_a_pitch_is_written_as_a_rise_or_an_angle_and_both_are_read(
    slope: float, rise: str, angle: str
) -> None:
    assert (Tape().pitch(slope), Tape("mm").pitch(slope)) == (rise, angle)
    for text in (rise, angle):
        assert parse_pitch(text) == pytest.approx(slope, abs=1e-3)


@given(st.fractions(-10_000, 10_000, max_denominator=64), st.sampled_from([16, 32, 64]))
def test_what_a_tape_reads_can_be_read_back(inches: Fraction, denominator: int) -> None:
    reading = tape(float(inches), denominator)
    assert reading.isascii()
    assert abs(parse_length(reading) - float(inches)) <= 0.5 / denominator + 1e-9
    assert tape(parse_length(reading), denominator) == reading


@given(st.integers(-100_000, 100_000), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_a_tape_s_own_marks_come_back_exactly(parts: int, denominator: int) -> None:
    assert parse_length(tape(parts / denominator, denominator)) == parts / denominator


@given(st.floats(-1e5, 1e5), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_no_length_reads_twelve_inches_or_a_whole_fraction(inches: float, denominator: int) -> None:
    words = tape(inches, denominator).lstrip("-").rstrip('"').split()
    for word in words:
        if "/" in word:
            assert Fraction(word) < 1
        elif not word.endswith("'"):
            assert int(word) < 12


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e6, max_value=1e6))
def test_a_number_written_out_reads_the_same_as_the_number(number: float) -> None:
    text = f"{number:.9f}"
    assert parse_length(text, "mm") == parse_length(float(text), "mm")


@given(st.text())
def test_any_text_is_a_length_or_a_refusal(text: str) -> None:
    try:
        assert math.isfinite(parse_length(text))
    except ValueError as error:
        assert "is not a length" in str(error)


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("6/12", math.degrees(math.atan(0.5))),
        ("6:12", math.degrees(math.atan(0.5))),
        ("6 in 12", math.degrees(math.atan(0.5))),
        ("6 on 12", math.degrees(math.atan(0.5))),
        ("6/12 pitch", math.degrees(math.atan(0.5))),
        ("6in12", math.degrees(math.atan(0.5))),
        ("30 degrees", 30),
        ("6 1/2 / 12", math.degrees(math.atan(6.5 / 12))),
        ("6.5/12", math.degrees(math.atan(6.5 / 12))),
        ("1/2", math.degrees(math.atan(0.5))),
        ("26.57 deg", 26.57),
        ("26.57°", 26.57),
        ("45 degrees", 45),
        ("50 %", math.degrees(math.atan(0.5))),
        ("100 percent", 45),
    ],
)
def test_reads_a_pitch(text: str, degrees: float) -> None:
    assert math.degrees(parse_pitch(text)) == pytest.approx(degrees, abs=1e-12)


@pytest.mark.parametrize("bare", [6, 0.5, "6", "0.5", "26.57"])
def test_a_bare_pitch_is_refused_because_it_has_three_meanings(bare: object) -> None:
    with pytest.raises(ValueError, match="alone could be inches in 12, degrees or percent; write 6/12"):
        parse_pitch(bare)


@pytest.mark.parametrize(
    "nonsense", ["", "steep", "6/0", "-6/12", "6/12/3", "nan deg", "45 rad", True, None, [6, 12], "9" * 99]
)
def test_refuses_a_pitch_that_is_none(nonsense: object) -> None:
    with pytest.raises(ValueError, match=r"is not a pitch; write 6/12, 26\.57 deg or 50 %"):
        parse_pitch(nonsense)


@pytest.mark.parametrize("sign", [1, -1])
def test_a_bare_number_beyond_a_million_millions_is_no_length(sign: int) -> None:
    assert parse_length(sign * 10**12) == parse_length(sign * 1e12) == sign * 1e12
    for number, said in ((sign * 12 * 10**11, "1.2e12"), (sign * 1.2e12, "1200000000000.0")):
        with pytest.raises(MeasureError, match=said):
            parse_length(number)
