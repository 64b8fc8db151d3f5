"""Names of edges and faces: every word of every name is explained in another language, and none in English."""

import re

from tests.zoo import SCENES, layout
from trimwright.viewer.words.roof_names import WORDS, named, words_in
from trimwright.viewer.words.speaker import Speaker, speaker


def test_every_word_of_a_name_is_explained() -> None:
    known = {part for word in WORDS for part in word.text.split()}
    for path in SCENES:
        roof = layout(path.stem).roof
        names = [one.name for one in (*roof.edges, *roof.faces)]
        assert {part for name in names for part in re.findall(r"[a-z]+", name)} <= known | {"step", "level"}


def test_a_name_stays_and_has_its_words_behind_it() -> None:
    assert named("front eave", Speaker()) == "front eave"
    assert named("valley 3-4", speaker(("en", "es"))) == "valley 3-4 (limahoya 3-4)"
    assert named("right-end left rake", speaker(("es",))) == (
        "right-end left rake (derecha-extremo izquierda borde inclinado)"
    )
    assert named("lookout of the harbor master", speaker(("es",))) == "lookout of the harbor master"


def test_words_are_told_in_another_language_only() -> None:
    names = ["front eave", "right-end left rake", "valley 3-4"]
    assert words_in(names, Speaker()) == ()
    told = [str(speaker(("es",))(one)) for one in words_in(names, speaker(("es",)))]
    assert "eave: alero" in told and "valley: limahoya" in told
    assert not any(one.startswith("ridge") for one in told)
