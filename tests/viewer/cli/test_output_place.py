"""The output folder: all or nothing, ours replaced, what is not ours left alone."""

from pathlib import Path

import pytest

from trimwright.viewer.cli.output_place import LEDGER, output_file, output_folder
from trimwright.viewer.cli.problems import OutputError


def fill(folder: Path, **files: str) -> None:
    """Write files with ``output_folder``; two underscores part folders."""
    with output_folder(folder) as draft:
        for name, text in files.items():
            path = draft / name.replace("__", "/")
            path.parent.mkdir(exist_ok=True)
            path.write_text(text)


def seen(folder: Path) -> dict[str, str]:
    """Return the files below a folder by their place, without the ledger."""
    return {
        path.relative_to(folder).as_posix(): path.read_text()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != LEDGER
    }


def test_files_come_into_place_with_the_folders_above(tmp_path: Path) -> None:
    out = tmp_path / "a" / "b"
    fill(out, report="1", pictures__street="2")
    assert seen(out) == {"report": "1", "pictures/street": "2"}


def test_nothing_is_there_before_all_of_it_is(tmp_path: Path) -> None:
    out = tmp_path / "out"
    with output_folder(out) as draft:
        (draft / "report").write_text("1")
        assert seen(out).keys() == {f"{draft.name}/report"}
        assert draft.name.startswith(".")


def test_a_second_time_replaces_ours_and_takes_away_what_is_not_made_any_more(tmp_path: Path) -> None:
    fill(tmp_path, report="1", pictures__hip="old")
    (tmp_path / "notes.txt").write_text("mine")
    fill(tmp_path, report="2")
    assert seen(tmp_path) == {"report": "2", "notes.txt": "mine"}
    assert not (tmp_path / "pictures").exists()


def test_files_of_others_in_our_folders_stay(tmp_path: Path) -> None:
    fill(tmp_path, pictures__hip="old")
    (tmp_path / "pictures" / "mine.png").write_text("mine")
    fill(tmp_path, report="2")
    assert seen(tmp_path) == {"report": "2", "pictures/mine.png": "mine"}


def test_failure_leaves_what_was_there(tmp_path: Path) -> None:
    fill(tmp_path, report="1")
    with pytest.raises(RuntimeError), output_folder(tmp_path) as draft:
        (draft / "report").write_text("half")
        raise RuntimeError
    assert seen(tmp_path) == {"report": "1"}


def test_failure_leaves_no_folder_that_was_not_there(tmp_path: Path) -> None:
    with pytest.raises(RuntimeError), output_folder(tmp_path / "a" / "b"):
        raise RuntimeError
    assert list(tmp_path.iterdir()) == []


def test_a_file_of_somebody_else_in_the_way_stops_all_of_it(tmp_path: Path) -> None:
    (tmp_path / "report").write_text("mine")
    with pytest.raises(OutputError, match="report: a file that was not written from here is in the way"):
        fill(tmp_path, pieces="1", report="2")
    assert seen(tmp_path) == {"report": "mine"}


def test_a_folder_in_the_way_stops_all_of_it(tmp_path: Path) -> None:
    (tmp_path / "report").mkdir()
    with pytest.raises(OutputError, match="report: a folder is in the way"):
        fill(tmp_path, pieces="1", report="2")
    assert seen(tmp_path) == {}


def test_a_ledger_cannot_lead_out_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "precious").write_text("mine")
    out = tmp_path / "out"
    fill(out, report="1")
    with (out / LEDGER).open("a") as ledger:
        ledger.write(f"../precious\n{tmp_path / 'precious'}\n")
    fill(out, report="2")
    assert (tmp_path / "precious").read_text() == "mine"


def test_a_link_to_a_folder_is_followed(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    fill(tmp_path / "link", report="1")
    assert seen(tmp_path / "real") == {"report": "1"}


def test_a_folder_that_may_not_be_written_to(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(**_: object) -> str:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("tempfile.mkdtemp", forbidden)
    with pytest.raises(OutputError, match="out: cannot be written: permission denied"):
        fill(tmp_path / "out", report="1")
    assert list(tmp_path.iterdir()) == []


def test_a_full_disk_is_said_in_one_line(tmp_path: Path) -> None:
    with (
        pytest.raises(OutputError, match="out: cannot be written: no space left"),
        output_folder(tmp_path / "out"),
    ):
        raise OSError(28, "No space left on device")
    assert list(tmp_path.iterdir()) == []


def test_one_file_is_replaced_when_the_new_one_is_whole(tmp_path: Path) -> None:
    path = tmp_path / "a" / "roof.png"
    with output_file(path, ".png") as draft:
        draft.write_text("1")
    assert path.read_text() == "1"
    with pytest.raises(RuntimeError), output_file(path, ".png") as draft:
        draft.write_text("half")
        raise RuntimeError
    assert seen(tmp_path) == {"a/roof.png": "1"}
