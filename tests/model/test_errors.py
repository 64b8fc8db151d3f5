"""Errors: every problem is told on one line with its place, in any language."""

import pickle

import pytest
from accented import spoken

from trimwright.model.errors import GeometryError, Problem, SceneError, key_said
from trimwright.model.message import Length, message
from trimwright.viewer.words.find_language import language_called
from trimwright.viewer.words.speaker import Speaker, speaker_for

LAP = message("{lap} is too short; give more", lap=Length(-4))


def test_a_problem_is_told_with_file_and_place_on_one_line() -> None:
    assert str(Problem(LAP, ("trim", "rake", "lap"), "shed.toml")) == (
        'shed.toml: trim.rake.lap: -4" is too short; give more'
    )
    assert str(Problem(message("one\ntwo"))) == "one two"


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ((), ""),
        (("title",), "title"),
        (("run", "front eave", "pieces", 0, "hand"), 'run."front eave".pieces no. 1.hand'),
    ],
)
def test_a_place_is_written_as_toml_writes_it(key: tuple[str | int, ...], words: str) -> None:
    assert key_said(key) == words


def test_problems_are_told_in_the_language_and_on_the_tape_of_the_scene() -> None:
    with spoken() as code:
        say = Speaker(language_called(code), speaker_for('show = "mm"').tape)
        assert say(Problem(LAP, ("trim", "rake", "lap"))) == f"trim.rake.lap: {say(LAP)}"
        assert "-102 mm" in say(LAP) and "short" not in say(LAP)


def test_what_the_text_of_a_scene_asks_for_is_spoken_as_far_as_it_can_be_read() -> None:
    with spoken() as code:
        assert speaker_for(f'language = "{code}"\nunit = "m"\ntitle = 3').language.code == code
        assert speaker_for(f'language = "{code}"\nunit = "m"').tape.style == "mm"
    for text in ("", "no toml = =", "language = 3", 'language = "zz"'):
        assert speaker_for(text) == Speaker()


def test_an_error_carries_all_its_problems_even_to_another_process() -> None:
    error = SceneError(Problem(LAP, ("trim", "rake", "lap")), message("no roof"))
    assert str(error).splitlines() == ['trim.rake.lap: -4" is too short; give more', "no roof"]
    assert pickle.loads(pickle.dumps(error)).problems == error.problems
    assert [one.file for one in error.within("a.toml")] == ["a.toml", "a.toml"]
    assert GeometryError(LAP).problems == (Problem(LAP),)
