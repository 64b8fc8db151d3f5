"""Changing a scene's text value by value: what was written comes back, and nobody's comments are lost."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from zoo import SCENES

from trimwright.viewer.app.scene_text import EditError, value_at, with_value

PATHS = [
    ("title",),
    ("north",),
    ("roof", "length"),
    ("roof", "overhang", "eave"),
    ("metal", "stock"),
    ("trim", "rake", "lap"),
    ("run", "front eave", "lap"),
    ("rules", "limits", "short-end-piece", "value"),
    ("screws", "ends"),
]
TEXTS = [path.read_text(encoding="utf-8") for path in SCENES]
VALUES = st.one_of(
    st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), max_size=20),
    st.integers(-1000, 1000),
    st.booleans(),
    st.lists(st.integers(0, 9), min_size=1, max_size=3),
)


def comments(text: str) -> list[str]:
    return [line.partition("#")[2].strip() for line in text.splitlines() if "# " in line]


@given(st.sampled_from(TEXTS), st.sampled_from(PATHS), VALUES)
def test_a_value_that_was_put_in_is_read_back_and_all_else_stays(
    text: str, path: tuple[str, ...], value: object
) -> None:
    new = with_value(text, path, value)
    assert value_at(tomllib.loads(new), path) == value
    assert comments(new) == comments(text)
    without = with_value(new, path, None)
    assert value_at(tomllib.loads(without), path) is None
    before, after = tomllib.loads(text), tomllib.loads(new)
    for name in set(before) - {path[0]}:
        assert after[name] == before[name]


def test_a_key_at_the_top_goes_above_the_first_table() -> None:
    assert tomllib.loads(with_value('title = "x"\n\n[roof]\nform = "hip"\n', ("north",), 20)) == {
        "title": "x",
        "north": 20,
        "roof": {"form": "hip"},
    }


def test_a_bare_limit_becomes_a_table_when_it_gets_a_reason() -> None:
    text = with_value("[rules.limits]\nlap-head = 1\n", ("rules", "limits", "lap-head", "reason"), "steep")
    assert tomllib.loads(text)["rules"]["limits"]["lap-head"] == {"value": 1, "reason": "steep"}


def test_trim_that_was_left_off_comes_back_with_its_first_value() -> None:
    text = with_value("[trim]\nrake = false\n", ("trim", "rake", "lap"), "5 in")
    assert tomllib.loads(text) == {"trim": {"rake": {"lap": "5 in"}}}


def test_a_text_that_is_no_toml_is_refused() -> None:
    with pytest.raises(EditError, match="change the text itself"):
        with_value("title = ", ("title",), "x")
