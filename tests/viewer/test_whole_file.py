"""A file is written whole or not at all; what was there before stays when it cannot be."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from trimwright.viewer.whole_file import draft_in, write_whole


@pytest.mark.parametrize("lasting", [False, True])
def test_a_file_is_written_and_replaced(tmp_path: Path, lasting: bool) -> None:
    path = tmp_path / "page.svg"
    for data in (b"before", b"after"):
        write_whole(path, data, lasting=lasting)
        assert path.read_bytes() == data
    assert path.stat().st_mode & 0o777 == 0o644
    assert list(tmp_path.iterdir()) == [path]


def test_nothing_is_left_where_it_cannot_be_written(tmp_path: Path) -> None:
    with pytest.raises(OSError):
        write_whole(tmp_path / "missing" / "page.svg", b"")
    (tmp_path / "folder").mkdir()
    with pytest.raises(OSError):
        write_whole(tmp_path / "folder", b"")
    assert [path.name for path in tmp_path.iterdir()] == ["folder"]


def test_what_was_there_stays_when_writing_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "scene.toml"
    path.write_bytes(b"before")

    def full(*_: object) -> None:
        raise OSError("no space left")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="no space"):
        write_whole(path, b"after", lasting=True)
    assert path.read_bytes() == b"before" and list(tmp_path.iterdir()) == [path]


KILLED = """
import os, signal, sys
import signal
import subprocess
import sys
from pathlib import Path
from trimwright.viewer.whole_file import draft_in
with draft_in(Path(sys.argv[1])) as draft:
    (draft / "half").write_text("half")
    os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="folders cannot be locked there")
def test_what_a_killed_run_left_is_taken_away_by_the_next_one_and_what_is_in_the_making_stays(
    tmp_path: Path,
) -> None:
    done = subprocess.run([sys.executable, "-P", "-c", KILLED, str(tmp_path)], check=False)
    assert done.returncode == -signal.SIGKILL
    [left] = tmp_path.iterdir()
    with draft_in(tmp_path) as draft:
        assert not left.exists()
        write_whole(tmp_path / "page.svg", b"")
        assert draft.is_dir()
    assert [path.name for path in tmp_path.iterdir()] == ["page.svg"]
