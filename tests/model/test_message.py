import math

import pytest
from accented import accented, plain_words

from trimwright.model.message import (
    Angle,
    Expanse,
    Fine,
    Length,
    Listed,
    Message,
    Place,
    Round,
    Slope,
    Swing,
    counted,
    message,
)
from trimwright.model.units import Tape


class Backward:
    """A language whose sentences put the places the other way round."""

    code = "xx"

    def sentence(self, text: str) -> str:
        return {"{first} before {second}": "{second} after {first}", "kick": "KICK"}.get(text, text)

    def counted(self, one: str, other: str, count: int) -> str:
        return "few {count}" if count < 5 else "many {count}"


def test_values_are_written_on_the_tape_that_is_asked_for() -> None:
    words = message(
        "{at} {gap} {pitch} {turn} {mark} {n}",
        at=Place(18.5),
        gap=Fine(0.024),
        pitch=Slope(math.atan(0.5)),
        turn=Angle(math.pi / 2),
        mark="R1-1",
        n=1200,
    )
    assert str(words) == '1\' 6 1/2" 0.024" 6/12 90 R1-1 1,200'
    assert words.said(Backward(), Tape("mm")) == "470 mm 0.61 mm 26.57° 90 R1-1 1,200"


def test_what_is_round_on_one_tape_is_round_on_the_other_and_units_go_with_it() -> None:
    words = message(
        "{apart} {swing} {sheet} {floor}",
        apart=Round(12, 300),
        swing=Swing(90),
        sheet=Expanse(216, 1),
        floor=Expanse(144_000),
    )
    assert str(words) == "1' 0\" 90 °F 1.5 sq ft 1,000 sq ft"
    assert words.said(Backward(), Tape("mm")) == "300 mm 50 °C 0.14 m² 92.9 m²"


def test_a_message_in_a_message_is_said_in_the_same_language() -> None:
    words = message("{first} before {second}", first=message("kick"), second=Length(2))
    assert words.said(Backward(), Tape()) == '2" after KICK'


def test_counts_are_as_the_language_wants_them() -> None:
    assert str(counted("one error", "{count} errors", count=1)) == "one error"
    assert str(counted("one error", "{count} errors", count=3)) == "3 errors"
    assert counted("one error", "{count} errors", count=7).said(Backward(), Tape()) == "many 7"


@pytest.mark.parametrize(
    ("listed", "words"),
    [
        (Listed(("A",)), "A"),
        (Listed(("A", "B")), "A and B"),
        (Listed(("A", "B", Length(3)), "or"), 'A, B or 3"'),
        (Listed(("A", "B"), "comma"), "A, B"),
    ],
)
def test_lists_are_joined(listed: Listed, words: str) -> None:
    assert str(message("{row}", row=listed)) == words


def test_a_place_without_a_value_and_a_value_without_a_place_are_refused() -> None:
    with pytest.raises(ValueError, match="lacks a value"):
        message("Cut {this}.")
    with pytest.raises(ValueError, match="no place"):
        message("Cut.", this=Length(1))
    with pytest.raises(ValueError, match="mark"):
        counted("{mark} has one", "there are {count}", count=1)


def test_messages_that_say_the_same_are_equal_and_can_be_keys() -> None:
    one, same = (message("Cut {leg}.", leg=message("kick")) for _ in range(2))
    assert one == same
    assert len({one, same, message("Cut {leg}.", leg=message("hem"))}) == 2
    assert isinstance(one, Message)


def test_braces_can_stand_in_a_sentence() -> None:
    assert str(message("give {{ value = {n} }}", n=3)) == "give { value = 3 }"


def test_the_made_up_language_leaves_no_word_plain_and_every_place_as_it_is() -> None:
    words = accented("Cut {{x}} the {leg} square across.")
    assert "{leg}" in words and "{{" in words
    assert plain_words(words.replace("{leg}", "")) == set()
    assert len(accented("across")) == 9
