"""``trimwright tape``: a form where it was asked for, also of a roof that cannot be laid out."""

from collections.abc import Callable
from pathlib import Path

import pypdf
from click.testing import Result

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]


def test_a_form_is_written(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("tape", scene("boat-shed"), "-o", "papers/form.pdf", "--paper", "a4")
    assert result.exit_code == 0 and "1 page" in result.stdout
    (page,) = pypdf.PdfReader(here / "papers" / "form.pdf").pages
    assert "front diagonal 1" in page.extract_text()


def test_what_was_taped_wrong_does_not_keep_the_form_away(run: Run, here: Path) -> None:
    table = 'form = "gable"\nlength = "32\'"\nwidth = "20\'"\npitch = "6/12"\n'
    (here / "shed.toml").write_text(
        f'title = "Shed"\n[roof]\n{table}[roof.taped]\nridge = 9000\n', encoding="utf-8"
    )
    result = run("tape", "shed.toml")
    assert result.exit_code == 0
    assert (here / "out" / "shed-tape.pdf").read_bytes().startswith(b"%PDF")


def test_a_scene_that_cannot_be_read_is_told(run: Run, here: Path) -> None:
    (here / "shed.toml").write_text('title = "Shed"\n', encoding="utf-8")
    result = run("tape", "shed.toml")
    assert result.exit_code == 2 and "roof: missing" in result.stderr
    assert not (here / "out").exists()
