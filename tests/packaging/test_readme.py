"""The README's commands: one that does the main job, and one that runs the tests."""

import re
import shlex
from pathlib import Path

ROOT = Path(__file__, "..", "..", "..").resolve()
COMMANDS = [
    line
    for fence in re.findall(
        r"^```sh\n(.*?)^```", (ROOT / "README.md").read_text(encoding="utf-8"), re.M | re.S
    )
    for line in fence.splitlines()
    if line.startswith("python3 -m venv")
]


def test_one_line_does_the_main_job_on_a_scene_that_is_there() -> None:
    (main,) = (line for line in COMMANDS if "trimwright preview" in line)
    assert (ROOT / shlex.split(main)[-1]).is_file()
    assert "pip install -q ." in main


def test_one_line_runs_the_tests_and_the_ci_runs_that_very_line() -> None:
    (tests,) = (line for line in COMMANDS if "pytest" in line)
    assert "'.[dev]'" in tests
    pattern = re.search(r"sed -n '/(.*)/p' README\.md", (ROOT / ".ci" / "run").read_text(encoding="utf-8"))
    assert pattern is not None
    lines = (ROOT / "README.md").read_text(encoding="utf-8").splitlines()
    assert [line for line in lines if re.search(pattern[1], line)] == [tests]


def test_no_host_of_a_registry_is_named() -> None:
    for path in (ROOT / "README.md", ROOT / "pyproject.toml", ROOT / ".ci" / "run"):
        assert not re.search(r"index-url|pypi", path.read_text(encoding="utf-8")), path
