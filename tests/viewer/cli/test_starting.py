"""What a command imports, and how it behaves as a process of its own."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from trimwright.viewer.cli.commands import COMMANDS

SceneOf = Callable[[str], Path]
TRIMWRIGHT = "import sys; from trimwright.viewer.cli import main; sys.argv[0] = 'trimwright'; main()"
HEAVY = ("pyvista", "vtk", "vtkmodules", "scipy", "trimesh", "matplotlib", "PIL", "nicegui", "reportlab")


def process(code: str, *arguments: object, **settings: str) -> subprocess.CompletedProcess[str]:
    """Run Python in a process of its own."""
    command = [sys.executable, "-P", "-c", code, *map(str, arguments)]
    return subprocess.run(
        command, capture_output=True, text=True, timeout=120, check=False, env={**os.environ, **settings}
    )


def imported_by(code: str) -> set[str]:
    """Return the modules that ``code`` imports."""
    done = process(code + "\nimport sys; print(*sys.modules)")
    assert done.returncode == 0, done.stderr
    return set(done.stdout.splitlines()[-1].split())


def command_line(*arguments: object) -> str:
    """Return code that runs a command and goes on."""
    argv = ["trimwright", *map(str, arguments)]
    return f"""
import sys
from trimwright.viewer.cli import main
sys.argv = {argv!r}
try:
    main()
except SystemExit:
    pass
"""


def test_help_imports_nothing_heavy() -> None:
    assert not imported_by(command_line("--help")) & {*HEAVY, "numpy", "pydantic", "shapely", "rich"}


def test_the_model_needs_neither_pictures_nor_tables() -> None:
    code = "import trimwright.model.pipeline, trimwright.model.checks.run, trimwright.model.scene.read"
    assert not imported_by(code) & {*HEAVY, "rich", "typer"}


def test_a_check_draws_and_buys_nothing(scene: SceneOf) -> None:
    assert not imported_by(command_line("check", scene("oar-store"))) & {*HEAVY, "rich"}


def test_a_check_of_a_sound_roof_imports_what_that_takes_alone(scene: SceneOf) -> None:
    others = {f"trimwright.viewer.cli.{command}" for command in COMMANDS} - {"trimwright.viewer.cli.check"}
    remedies = {
        "trimwright.model.mend.trial",
        "trimwright.model.sureness.sureness",
        "trimwright.model.takeoff",
    }
    kept_out = {*others, *remedies, "numpy.ma", "trimwright.viewer.outputs", "trimwright.viewer.display"}
    assert not imported_by(command_line("check", scene("oar-store"))) & kept_out


def test_pictures_do_not_wait_for_what_writes_papers(scene: SceneOf, tmp_path: Path) -> None:
    code = command_line(
        "preview", scene("oar-store"), "--only", "pictures", "--pictures", "none", "-o", tmp_path
    )
    papers = {"reportlab", "ezdxf", "openpyxl", "xlsxwriter", "trimesh", "trimwright.viewer.drawings"}
    assert not imported_by(code) & papers


def test_the_app_starts_without_what_draws_pictures_and_papers() -> None:
    """Compiled loops alone take 50 MB of memory."""
    drawing = {"numba", "reportlab", "ezdxf", "openpyxl", "xlsxwriter", "trimwright.viewer.render.picture"}
    assert not imported_by("import trimwright.viewer.app.server") & drawing


@pytest.mark.parametrize("command", ["", "preview", "check", "picture", "compare"])
def test_help_is_plain_text(command: str) -> None:
    done = process(TRIMWRIGHT, *command.split(), "--help")
    assert done.returncode == 0
    assert "Usage: trimwright" in done.stdout and "\x1b" not in done.stdout
    assert ("Exit status" in done.stdout) == (command == "")


def test_a_usage_error_ends_with_2() -> None:
    assert process(TRIMWRIGHT, "check").returncode == 2
    assert process(TRIMWRIGHT, "chek").returncode == 2


@pytest.mark.parametrize(
    "settings", [{"LC_ALL": "C"}, {"PYTHONIOENCODING": "ascii"}, {"TERM": "dumb"}, {"NO_COLOR": "1"}]
)
def test_plain_terminals(scene: SceneOf, settings: dict[str, str]) -> None:
    done = process(TRIMWRIGHT, "check", scene("sail-loft"), **settings)
    assert done.returncode == 0, done.stderr
    assert "\x1b" not in done.stdout


def test_a_closed_pipe_is_no_fault(scene: SceneOf) -> None:
    command = [sys.executable, "-P", "-c", TRIMWRIGHT, "check", "--json", str(scene("harbor-office"))]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None and child.stderr is not None
        child.stdout.readline()
        child.stdout.close()
        assert child.stderr.read() == ""
