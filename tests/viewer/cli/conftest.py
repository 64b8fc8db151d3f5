"""The command line in this process, in a folder of its own."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner
from zoo import SCENES

from trimwright.viewer.cli.commands import app_of

Run = Callable[..., Result]


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return an empty folder that is the current one."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def run(here: Path) -> Run:
    """Return what runs a command with its arguments."""

    def run(*arguments: object) -> Result:
        return CliRunner().invoke(app_of(), [str(argument) for argument in arguments])

    return run


@pytest.fixture
def scene() -> Callable[[str], Path]:
    """Return what gives a scene of the zoo its path."""
    return lambda name: next(path for path in SCENES if path.stem == name)
