"""``check`` of many scenes: one table or a line each, whatever one of them is like, and the highest exit status."""

import json
from collections.abc import Callable
from pathlib import Path

from click.testing import Result
from zoo import layout, told

from trimwright.model.checks.run import check
from trimwright.viewer.cli.check_many import check_all, checked
from trimwright.viewer.data.report import report_of, written

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]


def bad(here: Path) -> Path:
    file = here / "bad.toml"
    file.write_text('title = "No roof"\n')
    return Path(file.name)


def test_each_scene_is_a_row_and_the_highest_status_counts(run: Run, scene: SceneOf, here: Path) -> None:
    result = run("check", scene("boat-shed"), bad(here), scene("slip-shed"))
    rows = [line for line in result.stdout.splitlines() if ".toml" in line]
    assert [("no errors" in row, "cannot be built" in row, "has errors" in row) for row in rows] == [
        (True, False, False),
        (False, True, False),
        (False, False, True),
    ]
    errors = [one for one in check(layout("slip-shed")) if one.severity == "error"]
    assert str(len(errors)) in rows[2].split()
    assert result.stderr.startswith("bad.toml: ")
    assert result.exit_code == 2
    assert run("check", scene("boat-shed"), scene("slip-shed")).exit_code == 1


def test_as_json_each_scene_is_a_line(run: Run, scene: SceneOf, here: Path) -> None:
    result = run("check", scene("slip-shed"), bad(here), "--json")
    one, other = (json.loads(line) for line in result.stdout.splitlines())
    there = layout("slip-shed")
    assert one == {
        "scene": str(scene("slip-shed")),
        "status": 1,
        "report": json.loads(written(report_of(there, told("slip-shed")))),
    }
    assert set(other) == {"scene", "status", "problems"}
    assert (other["status"], result.exit_code) == (2, 2)
    assert other["problems"] and all(line.startswith("bad.toml: ") for line in other["problems"])


def test_several_at_once_come_in_the_order_of_the_scenes(scene: SceneOf, here: Path) -> None:
    paths = [scene("slip-shed"), bad(here), scene("boat-shed")]
    assert list(check_all(paths, jobs=2)) == [checked(path) for path in paths]


def test_a_fault_of_the_programs_own_in_one_scene_is_told_and_spares_the_others(
    scene: SceneOf, here: Path, monkeypatch
) -> None:
    def fails(path: Path) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr("trimwright.viewer.cli.work.laid_out", fails)
    one = checked(scene("boat-shed"))
    assert one.status == 2 and "planted" in one.problems[0]
