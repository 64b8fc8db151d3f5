"""The working folder: nothing outside is read or written, and nothing is written by half."""

import os
from pathlib import Path

import pytest

from trimwright.viewer.app.folder import LARGEST, MOST_COPIES, Folder, FolderError, scene_name

KEY = "0123456789abcdef"


@pytest.mark.parametrize(
    "name",
    [
        "../secret",
        "a/b",
        "..",
        "/etc/passwd",
        "a\\b",
        ".hidden",
        "",
        "x" * 200,
        "a\0b",
        "a..b",
        "ü" * 100,
        "a\nb",
    ],
)
def test_a_name_that_leads_elsewhere_is_refused(tmp_path: Path, name: str) -> None:
    folder = Folder(tmp_path)
    for act in (
        lambda: folder.read(name),
        lambda: folder.write(name, "x"),
        lambda: folder.keep(KEY, name, "x"),
    ):
        with pytest.raises(FolderError, match="give a name"):
            act()
    assert list(tmp_path.rglob("*.toml")) == []


@pytest.mark.parametrize("key", ["../../x", "", "zzzz", "0" * 15])
def test_a_key_that_is_none_is_refused(tmp_path: Path, key: str) -> None:
    with pytest.raises(FolderError, match="no such working copy"):
        Folder(tmp_path).keep(key, "shed", "x")


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    inside, outside = tmp_path / "in", tmp_path / "out.toml"
    inside.mkdir()
    outside.write_text("secret")
    (inside / "way-out.toml").symlink_to(outside)
    folder = Folder(inside)
    for act in (lambda: folder.read("way-out"), lambda: folder.write("way-out", "x")):
        with pytest.raises(FolderError, match="leads out"):
            act()
    assert outside.read_text() == "secret"


def test_what_cannot_be_written_leaves_what_was_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = Folder(tmp_path)
    folder.write("shed", "old")

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(FolderError, match=r"shed.toml: cannot be written: no space left"):
        folder.write("shed", "new")
    assert [path.name for path in tmp_path.iterdir()] == ["shed.toml"]
    assert folder.read("shed") == "old"


def test_a_working_copy_follows_its_name(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    folder.keep(KEY, "shed", "one")
    folder.keep(KEY, "loft", "two")
    (copy,) = folder.copies()
    assert (copy.key, copy.name, folder.kept(copy)) == (KEY, "loft", "two")
    folder.discard(KEY)
    assert folder.copy_of(KEY) is None


def test_copies_are_bounded(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    for number in range(MOST_COPIES + 5):
        folder.keep(f"{number:016x}", "shed", "x")
    assert len(folder.copies()) == MOST_COPIES


def test_too_large_and_not_text_are_refused(tmp_path: Path) -> None:
    (tmp_path / "big.toml").write_bytes(b"#" * (LARGEST + 1))
    (tmp_path / "odd.toml").write_bytes(b"\xff\xfe")
    for name, words in (("big", "more than 1,000,000 bytes"), ("odd", "not UTF-8"), ("none", "no such file")):
        with pytest.raises(FolderError, match=words):
            Folder(tmp_path).read(name)


def test_names_are_told_without_their_ending() -> None:
    assert scene_name(" boat-shed.toml ") == "boat-shed"


@pytest.mark.parametrize("name", ["Müller", "14 Birch Ln.", "O'Brien & sons (2)", "Ålesund 3", "屋根"])
def test_a_customers_name_is_a_file_name(tmp_path: Path, name: str) -> None:
    folder = Folder(tmp_path)
    folder.write(name, "x")
    folder.keep(KEY, name, "y")
    assert folder.names() == [name] and folder.read(name) == "x"
    (copy,) = folder.copies()
    assert (copy.name, folder.kept(copy)) == (name, "y")


def test_a_link_out_of_the_folder_is_not_offered(tmp_path: Path) -> None:
    inside, outside = tmp_path / "in", tmp_path / "out.toml"
    inside.mkdir()
    outside.write_text("secret")
    (inside / "way-out.toml").symlink_to(outside)
    (inside / "mine.toml").write_text("x")
    (inside / "alias.toml").symlink_to(inside / "mine.toml")
    assert Folder(inside).names() == ["alias", "mine"]
