"""``trimwright sheets``: one PDF where it was asked for, or one clear line."""

from collections.abc import Callable
from pathlib import Path

import pypdf
import pytest
from click.testing import Result

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]


def test_a_packet_is_written(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("sheets", scene("oar-store"), "-o", "papers/packet.pdf", "--paper", "a4")
    assert result.exit_code == 0
    reader = pypdf.PdfReader(here / "papers" / "packet.pdf")
    assert f"{len(reader.pages)} pages" in result.stdout
    assert float(reader.pages[0].mediabox.width) == pytest.approx(595.28, abs=0.01)
    assert result.stderr == ""
    assert [path.name for path in (here / "papers").iterdir()] == ["packet.pdf"]


def test_errors_in_the_layout_show_in_the_status(run: Run, scene: SceneOf) -> None:
    assert run("sheets", scene("slip-shed")).exit_code == 1


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("-o", "packet.txt"), ".pdf"),
        (("-o", "."), "."),
        (("-o", "file/packet.pdf"), "file"),
    ],
)
def test_a_bad_place_is_refused(
    run: Run, here: Path, scene: SceneOf, arguments: tuple[str, ...], says: str
) -> None:
    (here / "file").write_text("in the way")
    result = run("sheets", scene("oar-store"), *arguments)
    assert result.exit_code == 2
    assert says in result.stderr
    assert len(result.stderr.splitlines()) == 1
    assert [path.name for path in here.iterdir()] == ["file"]


def test_an_unreadable_scene_is_refused(run: Run, here: Path) -> None:
    (here / "bad.toml").write_text("title = 3")
    result = run("sheets", "bad.toml")
    assert result.exit_code == 2
    assert "bad.toml" in result.stderr
    assert not (here / "out").exists()
