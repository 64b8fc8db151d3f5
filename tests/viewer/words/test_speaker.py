import pytest
from accented import CODE, plain_words, spoken

from trimwright.model.errors import SceneError
from trimwright.model.message import Length, message
from trimwright.model.scene.read import scene_from
from trimwright.viewer.words.speaker import Speaker, speaker, speaker_of

SCENE = """
title = "Any"
{}
[roof]
form = "gable"
length = "20'"
width = "20'"
pitch = "6/12"
"""


def test_a_speaker_says_sentences_and_messages() -> None:
    say = Speaker()
    assert say("Piece {mark}", mark="R1-1") == "Piece R1-1"
    assert say(message("{far} up", far=Length(6))) == '6" up'
    assert say.counted("{count} screw", "{count} screws", count=2) == "2 screws"


def test_a_scene_is_told_in_its_own_language_and_on_its_own_tape() -> None:
    with spoken():
        say = speaker_of(scene_from(SCENE.format(f'language = "{CODE}"\nshow = "mm"'), "any.toml"))
        words = say("Cut it back {far}.", far=Length(10))
    assert "254" in words
    assert plain_words(words) == set()


def test_words_in_several_languages_stand_beside_each_other_each_sentence_whole_in_its_own() -> None:
    with spoken():
        say = speaker(("en", CODE))
        metal = say("steel")
        sentence = say("{metal}, {count} sheets", metal=metal, count=2)
    english, other = sentence.split(" / ")
    assert english == "steel, 2 sheets"
    assert plain_words(other) == set() and "2" in other
    assert say("{mark}", mark="R1-1") == "R1-1"


def test_languages_of_a_scene_may_be_several() -> None:
    with spoken():
        scene = scene_from(SCENE.format(f'language = ["en", "{CODE}", "en"]'), "any.toml")
        assert scene.language == ("en", CODE)
        assert " / " in speaker_of(scene)("steel")


def test_a_language_without_words_is_refused_with_those_that_there_are() -> None:
    with pytest.raises(SceneError, match="'zz'; there are: en"):
        speaker_of(scene_from(SCENE.format('language = "zz"'), "any.toml"))


def test_a_language_is_given_by_its_code() -> None:
    with pytest.raises(SceneError, match="language"):
        scene_from(SCENE.format('language = "English please"'), "any.toml")
