"""Names of files with control characters, markup or bytes that are no text: never printed raw, whatever is asked."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]

NAMES = {
    "a\x1b[31mred\nline.toml": r"a\x1b[31mred\nline.toml",
    "c\x9b31m.toml": r"c\x9b31m.toml",
    "d\udcff.toml": r"d\udcff.toml",
    "[bold]e.toml": "[bold]e.toml",
    "f\u202eg.toml": r"f\u202eg.toml",
}
"""How each name is printed."""


@pytest.fixture(params=NAMES, ids=NAMES.values())
def name(request: pytest.FixtureRequest, here: Path, scene: SceneOf) -> str:
    """Return the name of a scene's file in the current folder."""
    (here / request.param).write_bytes(scene("boat-shed").read_bytes())
    return str(request.param)


def test_many_scenes_are_told_by_names_that_can_be_printed(run: Run, name: str, here: Path) -> None:
    (here / "other.toml").write_text("x =")
    result = run("check", name, "other.toml")
    assert result.exit_code == 2
    assert NAMES[name] in result.stdout
    assert all(line.isprintable() for line in result.stdout.splitlines())


def test_a_line_of_json_has_the_name_and_nothing_that_cannot_be_printed(run: Run, name: str) -> None:
    first, _ = run("check", name, name, "--json").stdout.splitlines()
    assert first.isprintable()
    assert json.loads(first)["scene"] == name


def test_a_problem_names_its_file(run: Run, name: str, here: Path) -> None:
    (here / name).write_text("x =")
    said = run("check", name).stderr
    assert said.startswith(f"{NAMES[name]}: end of file")
    assert said.rstrip("\n").isprintable()
    assert run("check", f"no {name}").stderr.startswith(f"no {NAMES[name]}: there is no such file")


def test_what_is_written_is_told(run: Run, name: str, here: Path) -> None:
    said = run("buy", name, "-o", f"to {name}").stdout
    assert f"to {NAMES[name]}" in said
    assert all(line.isprintable() for line in said.splitlines())
