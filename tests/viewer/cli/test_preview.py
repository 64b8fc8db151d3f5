"""``preview``: the whole job into one folder, or some parts of it, with all pictures, a few or none."""

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import Result
from PIL import Image

from trimwright.model.errors import TrimwrightError
from trimwright.model.message import message
from trimwright.viewer.cli.output_place import LEDGER
from trimwright.viewer.display.view import ViewPoint
from trimwright.viewer.outputs import formats
from trimwright.viewer.render import picture

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]

LISTS = {"report.json", "roof.glb", "pieces.csv", "roof.html", "packet.pdf"}


def test_everything_but_pictures(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("preview", scene("net-loft"), "--pictures", "none")
    assert result.exit_code == 0 and result.stderr == ""
    out = here / "out" / "net-loft"
    assert {path.name for path in out.iterdir() if path.is_file()} >= LISTS
    assert {path.name for path in out.iterdir() if path.is_dir()} == {"patterns", "buy"}
    assert json.loads((out / "report.json").read_text())["title"] == "Net loft above the slipway"
    assert [path for path in here.rglob("*") if "unfinished" in path.name] == []


def test_what_is_printed(run: Run, scene: SceneOf) -> None:
    told = run("preview", scene("net-loft"), "--only", "report").stdout
    assert "R1-2 1' 3 1/16\" at the high end" in told
    assert "short-end-piece" in told and "4 warnings" in told
    assert "written to out/net-loft" in told
    assert "falls" in told and "power lines" in told
    assert "\x1b" not in told


def test_the_table_is_told_before_anything_is_made(
    run: Run, scene: SceneOf, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise TrimwrightError(message("no more disk"))

    monkeypatch.setattr(formats, "OUTPUTS", (replace(formats.OUTPUTS[0], make=broken),))
    result = run("preview", scene("net-loft"))
    assert result.exit_code == 2
    assert "R1-2 1' 3 1/16\" at the high end" in result.stdout and "written" not in result.stdout


def test_only_some_parts_are_made_and_the_others_stay(run: Run, here: Path, scene: SceneOf) -> None:
    out = here / "out" / "oar-store"
    assert run("preview", scene("oar-store"), "--only", "page, report", "--pictures", "none").exit_code == 0
    assert {path.name for path in out.iterdir()} == {"report.json", "roof.html", LEDGER}
    before = (out / "report.json").stat().st_mtime_ns
    assert run("preview", scene("oar-store"), "--only", "patterns").exit_code == 0
    assert (out / "report.json").stat().st_mtime_ns == before
    assert list((out / "patterns").glob("*.dxf"))
    assert run("preview", scene("oar-store"), "--pictures", "none").exit_code == 0
    assert (out / "packet.pdf").exists()


def test_errors_among_the_findings_end_it_with_1(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("preview", scene("slip-shed"), "-o", "there", "--only", "report")
    assert result.exit_code == 1
    assert "more in report.json" in result.stdout
    assert (here / "there" / "report.json").exists()


@pytest.mark.parametrize(("wanted", "most"), [("few", 6), ("all", 99)])
def test_few_pictures_or_all(
    run: Run, here: Path, scene: SceneOf, monkeypatch: pytest.MonkeyPatch, wanted: str, most: int
) -> None:
    drawn: list[str] = []

    def small(stage: object, view: ViewPoint, size: tuple[int, int] = (0, 0)) -> Image.Image:
        drawn.append(view.name)
        return Image.new("RGB", (16, 10))

    monkeypatch.setattr(picture, "drawn", small)
    result = run("preview", scene("oar-store"), "--only", "pictures,page", "--pictures", wanted)
    assert result.exit_code == 0 and result.stderr == ""
    pictures = {path.name for path in (here / "out" / "oar-store" / "pictures").iterdir()}
    assert len(pictures) == len(drawn) and (len(drawn) > 10) == (wanted == "all") and len(drawn) <= most
    assert {"street.png", "finish.png", "bare.png"} <= pictures


def test_again_only_what_shows_something_else_is_drawn_and_a_run_that_fails_changes_nothing(
    run: Run, here: Path, scene: SceneOf, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn: list[str] = []

    def small(_: object, view: ViewPoint, size: tuple[int, int] = (0, 0)) -> Image.Image:
        if len(drawn) == full:
            raise OSError(28, "No space left on device")
        drawn.append(view.name)
        return Image.new("RGB", (16, 10))

    def files() -> dict[str, bytes]:
        return {path.name: path.read_bytes() for path in (here / "out").rglob("*") if path.is_file()}

    monkeypatch.setattr(picture, "drawn", small)
    text, path, words, full = scene("oar-store").read_text(), here / "roof.toml", ("--only", "pictures"), 99
    path.write_text(text)
    assert run("preview", path, *words).exit_code == 0
    first, every = files(), len(drawn)
    assert run("preview", path, *words).exit_code == 0
    assert files() == first and len(drawn) == every
    path.write_text(text.replace("#7a2f2a", "#1f4a7a"))
    full = every + 1
    assert run("preview", path, *words).exit_code == 2
    assert files() == first and len(drawn) == full, "nothing of a run that stops half way is left"
    drawn.clear()
    full = 99
    assert run("preview", path, *words).exit_code == 0
    assert "finish" in drawn and "bare" not in drawn and len(drawn) < every


def test_a_real_picture_by_the_name_of_its_file(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("picture", scene("oar-store"), "--view", "street.png", "-o", "a/street.png")
    assert result.exit_code == 0, result.stderr
    assert result.stdout.strip() == "a/street.png"
    with Image.open(here / "a" / "street.png") as image:
        assert image.size[0] > 1000
        assert len(image.convert("RGB").resize((64, 40)).getcolors(4096) or ()) > 50


def test_starting_rules_side_by_side(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("compare", scene("net-loft"))
    assert result.exit_code == 0, result.stderr
    rows = [line.split()[0] for line in result.stdout.splitlines() if line.strip()]
    assert [row for row in rows if row in ("low", "high", "centered", "even", "shared")] == [
        "low",
        "high",
        "centered",
        "even",
        "shared",
    ]
    assert (here / "out" / "net-loft-starts.png").stat().st_size > 1000
