"""What a workspace keeps: the copy it works on, what is left unfinished, and what is saved."""

from pathlib import Path

import pytest
from workspaces import KEY, OTHER, PITCH, Told, acts, change

from trimwright.viewer.app.beginnings import PLAIN
from trimwright.viewer.app.folder import Folder
from trimwright.viewer.app.workspace import Workspace


def test_what_others_are_at_is_not_left_and_what_is_alike_is_offered_once(tmp_path: Path, told: Told) -> None:
    folder, changed = Folder(tmp_path), PLAIN["plain-shed"].replace("3/12", "4/12")
    for key in ("a" * 16, "b" * 16, "c" * 16):
        folder.keep(key, "loft", changed)
    folder.keep("d" * 16, "barn", changed)
    busy = {"d" * 16}
    mine = Workspace(KEY, folder, told.append, lambda: busy)
    acts(mine, {"do": "ready"})
    assert [one["name"] for one in told.state["unfinished"]] == ["loft"]
    busy.clear()
    acts(mine, {})
    assert {one["name"] for one in told.state["unfinished"]} == {"loft", "barn"}


def test_every_change_is_kept_before_it_is_answered(workspace: Workspace, tmp_path: Path) -> None:
    acts(workspace, change(PITCH, "9/12"))
    (copy,) = Folder(tmp_path).copies()
    assert copy.key == KEY and 'pitch = "9/12"' in Folder(tmp_path).kept(copy)


def test_what_is_not_saved_is_left_lying_when_another_scene_is_taken_up(
    workspace: Workspace, told: Told
) -> None:
    acts(workspace, change(PITCH, "9/12"), {"do": "begin", "name": "plain-hip"})
    assert told.state["name"] == "plain-hip" and not told.state["undo"]
    (left,) = told.state["unfinished"]
    assert left["name"] == "plain-gable"
    acts(workspace, {"do": "begin", "name": "plain-shed"}, {"do": "resume", "key": left["key"]})
    assert (
        'pitch = "9/12"' in workspace.text
        and told.state["name"] == "plain-gable"
        and told.state["unfinished"] == []
    )


def test_what_another_left_is_offered_taken_up_and_thrown_away(tmp_path: Path, told: Told) -> None:
    folder = Folder(tmp_path)
    acts(Workspace(OTHER, folder, Told().append), change(PITCH, "9/12"))
    mine = Workspace(KEY, folder, told.append)
    acts(mine, {"do": "ready"})
    assert [one["key"] for one in told.state["unfinished"]] == [OTHER]
    acts(mine, {"do": "resume", "key": OTHER})
    assert 'pitch = "9/12"' in mine.text and told.state["unfinished"] == []
    assert [copy.key for copy in folder.copies()] == [KEY]
    acts(mine, {"do": "discard", "key": KEY})
    assert folder.copies() == []


def test_only_what_was_changed_is_left_unfinished(tmp_path: Path, told: Told) -> None:
    folder = Folder(tmp_path)
    folder.write("loft", PLAIN["plain-shed"])
    folder.keep(OTHER, "loft", PLAIN["plain-shed"])
    folder.keep("c" * 16, "plain-hip", PLAIN["plain-hip"])
    mine = Workspace(KEY, folder, told.append)
    acts(mine, {"do": "ready"})
    assert told.state["unfinished"] == []
    folder.keep(OTHER, "loft", PLAIN["plain-shed"].replace("3/12", "4/12"))
    folder.keep("c" * 16, "plain-hip", "no TOML")
    (tmp_path / ".trimwright" / f"odd~{'d' * 16}.toml").write_bytes(b"\xff")
    acts(mine, {"do": "ready"})
    gists = {one["name"]: one["gist"] for one in told.state["unfinished"]}
    assert gists == {"loft": "shed, 16' x 10', 4/12", "plain-hip": "", "odd": ""}


def test_what_somebody_else_saved_is_not_written_over_unasked(
    workspace: Workspace, told: Told, tmp_path: Path
) -> None:
    file = tmp_path / "loft.toml"
    acts(workspace, {"do": "save", "name": "loft"}, change(PITCH, "7/12"))
    file.write_text("# a note\n" + file.read_text())
    acts(workspace, {"do": "save"})
    assert told.of("over") == ["loft"] and "somebody else" in told.of("why")[0]
    assert file.read_text().startswith("# a note")
    acts(workspace, {"do": "save", "name": "loft", "over": True})
    assert 'pitch = "7/12"' in file.read_text() and "# a note" not in file.read_text()
    acts(workspace, change(PITCH, "8/12"), {"do": "save"})
    assert 'pitch = "8/12"' in file.read_text()


def test_to_save_under_no_name_is_refused(workspace: Workspace, told: Told, tmp_path: Path) -> None:
    acts(workspace, {"do": "save", "name": "loft"}, change(PITCH, "7/12"), {"do": "save", "name": " "})
    assert told.of("refused")[0].startswith("give a name")
    assert 'pitch = "7/12"' not in (tmp_path / "loft.toml").read_text()


def test_two_workspaces_know_nothing_of_each_other(tmp_path: Path) -> None:
    one, two = (Workspace(key, Folder(tmp_path), Told().append) for key in (KEY, OTHER))
    acts(one, change(PITCH, "9/12"))
    acts(two, change(PITCH, "3/12"))
    assert 'pitch = "9/12"' in one.text and 'pitch = "3/12"' in two.text


def test_saving_keeps_comments_and_asks_before_it_replaces(
    workspace: Workspace, told: Told, tmp_path: Path
) -> None:
    (tmp_path / "loft.toml").write_text("kept")
    acts(workspace, change(PITCH, "7/12"), {"do": "save", "name": "loft"})
    assert told.of("over") == ["loft"] and (tmp_path / "loft.toml").read_text() == "kept"
    acts(workspace, {"do": "save", "name": "loft", "over": True})
    saved = (tmp_path / "loft.toml").read_text()
    assert saved.startswith("# Two slopes and two gable ends.") and 'pitch = "7/12"' in saved
    assert (told.state["name"], told.state["unsaved"]) == ("loft", False)


def test_what_cannot_be_read_is_not_saved(workspace: Workspace, told: Told, tmp_path: Path) -> None:
    acts(workspace, change(PITCH, "?"), {"do": "save"})
    assert told.of("refused") == ["not saved: 1 value of it cannot be read; the working copy has all"]
    assert not (tmp_path / "plain-gable.toml").exists()


@pytest.mark.parametrize("name", ["../x", "/etc/passwd", ""])
def test_nothing_outside_is_opened_or_saved(
    workspace: Workspace, told: Told, tmp_path: Path, name: str
) -> None:
    acts(workspace, {"do": "open", "name": name})
    assert told.of("refused")[0].startswith("give a name")
    if name:
        acts(workspace, {"do": "save", "name": name})
        assert told.of("refused")[0].startswith("give a name")
    assert not list(tmp_path.glob("*.toml"))


def test_what_is_no_toml_is_not_taken_up(workspace: Workspace, told: Told, tmp_path: Path) -> None:
    (tmp_path / "bad.toml").write_text("title = ")
    first = workspace.text
    acts(workspace, {"do": "open", "name": "bad"})
    assert "not TOML" in told.of("refused")[0] and workspace.text == first
