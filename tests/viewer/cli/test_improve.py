import shutil
from collections.abc import Callable
from pathlib import Path

from click.testing import Result

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import read_scene

Run = Callable[..., Result]


def test_the_better_scene_is_written_beside_the_picture_and_the_scene_stays(
    run: Run, here: Path, scene: Callable[[str], Path]
) -> None:
    before = scene("net-loft").read_text(encoding="utf-8")
    shutil.copy(scene("net-loft"), "loft.toml")
    done = run("improve", "loft.toml", "-o", "better.toml")
    assert done.exit_code == 0, done.output
    assert "proved best" in done.stdout and "warnings" in done.stdout
    assert here.joinpath("loft.toml").read_text(encoding="utf-8") == before
    better = here.joinpath("better.toml").read_text(encoding="utf-8")
    assert better.startswith(before.rstrip()[:200])
    assert {finding.severity for finding in check(build(read_scene(here / "better.toml")))} <= {"note"}
    assert here.joinpath("better.png").stat().st_size > 1000


def test_the_scene_itself_is_never_written(run: Run, here: Path, scene: Callable[[str], Path]) -> None:
    shutil.copy(scene("net-loft"), "loft.toml")
    done = run("improve", "loft.toml", "-o", "loft.toml")
    assert done.exit_code == 2 and "stays as it is" in done.stderr
