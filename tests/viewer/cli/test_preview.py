"""``preview``: the whole job into one folder, with and without pictures."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from PIL import Image

from trimwright.viewer.display.view import ViewPoint

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]

LISTS = {"report.json", "roof.glb", "pieces.csv", "roof.html", "packet.pdf"}


def test_all_but_pictures_where_nothing_draws(run: Run, here: Path, scene: SceneOf, unseen: str) -> None:
    result = run("preview", scene("net-loft"))
    assert result.exit_code == 0
    out = here / "out" / "net-loft"
    assert {path.name for path in out.iterdir() if path.is_file()} >= LISTS
    assert not (out / "pictures").exists()
    assert unseen in result.stderr and result.stderr.strip().endswith("All else is written.")
    assert json.loads((out / "report.json").read_text())["title"] == "Net loft above the slipway"
    assert [path for path in here.rglob("*") if "unfinished" in path.name] == []


def test_what_is_printed(run: Run, scene: SceneOf, unseen: str) -> None:
    told = run("preview", scene("net-loft")).stdout
    assert "R1-2 1' 3 5/16\" at the high end" in told
    assert "short-end-piece" in told and "4 warnings" in told
    assert "written to out/net-loft" in told
    assert "falls" in told and "power lines" in told
    assert "\x1b" not in told


def test_errors_among_the_findings_end_it_with_1(run: Run, here: Path, scene: SceneOf, unseen: str) -> None:
    result = run("preview", scene("slip-shed"), "-o", "there")
    assert result.exit_code == 1
    assert "more in report.json" in result.stdout
    assert (here / "there" / "report.json").exists()


def test_pictures_too(run: Run, here: Path, scene: SceneOf, monkeypatch: pytest.MonkeyPatch) -> None:
    from trimwright.viewer.render import picture

    drawn: list[str] = []

    def small(stage: object, view: ViewPoint, size: tuple[int, int] = (0, 0)) -> Image.Image:
        drawn.append(view.name)
        return Image.new("RGB", (16, 10))

    monkeypatch.setattr(picture, "drawn", small)
    result = run("preview", scene("oar-store"))
    assert result.exit_code == 0 and result.stderr == ""
    pictures = {path.name for path in (here / "out" / "oar-store" / "pictures").iterdir()}
    assert len(pictures) == len(drawn) > 10
    assert {"street.png", "finish.png", "bare.png"} <= pictures


def test_a_real_picture(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("picture", scene("oar-store"), "--view", "street", "-o", "a/street.png")
    assert result.exit_code == 0, result.stderr
    assert result.stdout.strip() == "a/street.png"
    with Image.open(here / "a" / "street.png") as image:
        assert image.size[0] > 1000
        assert len(image.convert("RGB").resize((64, 40)).getcolors(4096) or ()) > 50


def test_starting_rules_side_by_side(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("compare", scene("net-loft"))
    assert result.exit_code == 0, result.stderr
    rows = [line.split()[0] for line in result.stdout.splitlines() if line.strip()]
    assert [row for row in rows if row in ("low", "high", "centered", "even")] == [
        "low",
        "high",
        "centered",
        "even",
    ]
    assert (here / "out" / "net-loft-starts.png").stat().st_size > 1000
