"""The wheel: both packages under one name, their data with them, and nothing else."""

import email
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from zoo import layout

from trimwright.model.checks.run import check
from trimwright.viewer.report.words import totals

ROOT = Path(__file__, "..", "..", "..").resolve()


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True, timeout=120)
    return next(folder.glob("trimwright-*.whl"))


@pytest.fixture(scope="module")
def unpacked(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("unpacked")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def run(folder: Path, code: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run Python with the unpacked wheel before anything that is installed."""
    return subprocess.run(
        [sys.executable, "-P", "-c", code, *arguments],
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        env={**os.environ, "PYTHONPATH": str(folder)},
    )


def test_every_source_and_data_file_is_in_it(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        inside = {name for name in archive.namelist() if name.startswith("trimwright/")}
    there = {
        f"trimwright/{path.relative_to(ROOT).as_posix()}"
        for part in ("model", "viewer")
        for path in (ROOT / part).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert inside == there
    assert {"trimwright/model/limits/sets.toml", "trimwright/model/metals.toml"} <= inside


def test_nothing_else_is_in_it(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        tops = {name.split("/")[0] for name in archive.namelist()}
        metadata = email.message_from_bytes(
            archive.read(next(name for name in archive.namelist() if name.endswith("METADATA")))
        )
    assert tops == {"trimwright", f"trimwright-{metadata['Version']}.dist-info"}
    assert metadata["Requires-Python"] == ">=3.11"


def test_it_works_without_the_repository(unpacked: Path) -> None:
    code = "import trimwright.model as m, trimwright.viewer as v; print(m.__file__); print(v.__file__)"
    done = run(unpacked, code)
    assert done.returncode == 0, done.stderr
    assert all(line.startswith(str(unpacked)) for line in done.stdout.splitlines())
    code = "import sys; sys.argv[0] = 'trimwright'; from trimwright.viewer.cli import main; main()"
    done = run(unpacked, code, "check", str(ROOT / "scenes" / "boat-shed.toml"))
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines()[-1] == str(totals(check(layout("boat-shed"))))


def test_nothing_is_called_model_or_viewer_at_the_top(unpacked: Path) -> None:
    assert not (unpacked / "model").exists()
    assert not (unpacked / "viewer").exists()
