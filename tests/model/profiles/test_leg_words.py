"""A leg of the catalogue is a word that languages translate; a name that a scene gives stands as it is."""

from trimwright.model.message import Message
from trimwright.model.profiles.leg_words import leg_words


def test_a_leg_of_the_catalogue_is_a_word() -> None:
    words = leg_words("left wing")
    assert isinstance(words, Message) and str(words) == "left wing"


def test_a_name_that_a_scene_gives_is_never_taken_for_a_sentence() -> None:
    assert leg_words("my {odd} leg") == "my {odd} leg"
