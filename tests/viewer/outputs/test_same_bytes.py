"""Every output is the same when it is made again: at another time, in another process, in another folder."""

import os
import subprocess
import sys
from pathlib import Path

from tests.zoo import SCENES

TWO = (("preview", "-o", "made", "--pictures", "few"), ("buy", "-o", "nested", "--nest"))


def made(scene: Path, folder: Path, dice: str) -> dict[str, bytes]:
    """Return the files that the commands write, by name; ``dice`` seeds the order in which sets go."""
    folder.mkdir()
    for command, *options in TWO:
        asked = ["-P", "-c", "from trimwright.viewer.cli import main; main()", command, str(scene), *options]
        subprocess.run(
            [sys.executable, *asked], cwd=folder, env=os.environ | {"PYTHONHASHSEED": dice}, check=True
        )
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def test_the_same_scene_gives_the_same_bytes(tmp_path: Path) -> None:
    scene = next(path for path in SCENES if path.stem == "oar-store")
    one, other = made(scene, tmp_path / "one", "1"), made(scene, tmp_path / "other", "2")
    assert {Path(name).suffix for name in one} >= {".png", ".html", ".pdf", ".dxf", ".xlsx", ".glb", ".svg"}
    assert one.keys() == other.keys()
    assert [name for name, data in one.items() if data != other[name]] == []
