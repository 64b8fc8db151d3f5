"""Every leg of the catalogue has its word; a name that a scene gives stands as it is."""

from trimwright.model.message import Message
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.profiles.leg_words import leg_words


def test_every_leg_of_the_catalogue_has_its_word() -> None:
    names = {leg.name for profile in catalogue().values() for leg in profile.legs}
    assert {name: str(leg_words(name)) for name in names} == {name: name for name in names}
    assert all(isinstance(leg_words(name), Message) for name in names)


def test_a_name_that_a_scene_gives_is_never_taken_for_a_sentence() -> None:
    assert leg_words("my {odd} leg") == "my {odd} leg"
