"""Names of faces and edges in words: every name that a roof gives is known as a whole."""

import pytest
from zoo import NAMES, layout

from trimwright.model.message import Message
from trimwright.model.roof.name_words import name_words


@pytest.mark.parametrize("name", NAMES)
def test_every_name_is_known_and_reads_in_english_as_it_is_typed(name: str) -> None:
    roof = layout(name).roof
    for one in (*roof.edges, *roof.faces):
        assert isinstance(one.words, Message)
        assert str(one.words) == one.name


def test_a_name_that_somebody_gave_stays() -> None:
    assert name_words("lookout of the harbor master") == "lookout of the harbor master"
    assert name_words("lookout 2") == "lookout 2"


def test_numbers_stand_where_they_did() -> None:
    assert str(name_words("back 2 eave")) == "back 2 eave"
    assert str(name_words("eave 3 2")) == "eave 3 2"
    assert str(name_words("right-end left rake 2")) == "right-end left rake 2"
