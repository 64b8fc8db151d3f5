"""Where output goes: written to a hidden folder first and moved into place when all of it is there."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from trimwright.model.units import shorten

from .problems import OutputError

LEDGER = ".trimwright-files"
"""Names of the files that a folder has from here, one a line: these may be replaced, all others stay."""

UNFINISHED = ".trimwright-unfinished-"
"""What the name of a hidden folder begins with while its files are being written."""


@contextmanager
def output_folder(folder: Path) -> Iterator[Path]:
    """Give an empty folder to write to, and move its files into ``folder`` when the block ends well.

    Earlier files of ours are replaced, or taken away when they are not made any more. When the block raises,
    or something that is not ours is in the way of a file, ``folder`` stays as it was.

    Raises:
        OutputError: ``folder`` cannot be made or written to, or a file of somebody else's is in the way.
    """
    with _refusals(folder):
        made = _make(folder)
    try:
        with _refusals(folder):
            draft = Path(tempfile.mkdtemp(prefix=UNFINISHED, dir=folder))
        try:
            yield draft
            with _refusals(folder):
                _move(draft, folder)
        finally:
            shutil.rmtree(draft, ignore_errors=True)
    except BaseException:
        for path in reversed(made):
            _remove_if_empty(path)
        raise


@contextmanager
def output_file(path: Path, suffix: str) -> Iterator[Path]:
    """Give a path to write to, and move what is there to ``path`` when the block ends well.

    Raises:
        OutputError: ``path`` has another suffix, is a folder, or cannot be written.
    """
    if path.suffix.lower() != suffix:
        raise OutputError(f"{path}: this would be a {suffix} file; give a name that ends in {suffix}")
    if path.is_dir():
        raise OutputError(
            f"{path}: this is a folder; give the name of a file, such as {path / 'roof'}{suffix}"
        )
    with _refusals(path.parent):
        made = _make(path.parent)
    try:
        with _refusals(path.parent):
            draft = Path(tempfile.mkdtemp(prefix=UNFINISHED, dir=path.parent))
        try:
            yield draft / path.name
            with _refusals(path):
                (draft / path.name).replace(path)
        finally:
            shutil.rmtree(draft, ignore_errors=True)
    except BaseException:
        for folder in reversed(made):
            _remove_if_empty(folder)
        raise


@contextmanager
def _refusals(path: Path) -> Iterator[None]:
    """Say what the system refuses in one line that names ``path``."""
    try:
        yield
    except (OSError, ValueError) as error:
        if isinstance(error, FileExistsError | NotADirectoryError):
            raise OutputError(f"{path}: a file is in the way of this folder; give another with -o") from None
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        raise OutputError(
            f"{str(path)!r}: cannot be written ({reason}); give another place with -o"
        ) from None


def _make(folder: Path) -> list[Path]:
    """Make ``folder`` and what leads to it; return those that were not there, outermost first."""
    missing = [path for path in (folder, *folder.parents) if not path.exists()][::-1]
    folder.mkdir(parents=True, exist_ok=True)
    return missing


def _remove_if_empty(folder: Path) -> None:
    try:
        folder.rmdir()
    except OSError:
        return


def _move(draft: Path, folder: Path) -> None:
    """Move every file of ``draft`` to the same place in ``folder``, and take away the earlier ones."""
    new = sorted(path.relative_to(draft).as_posix() for path in draft.rglob("*") if path.is_file())
    earlier = _ledger(folder)
    for name in new:
        there = folder / name
        if there.is_dir() or (there.exists() and name not in earlier):
            what = "a folder" if there.is_dir() else "a file that was not written from here"
            raise OutputError(f"{there}: {what} is in the way; move it, or give another folder with -o")
    ledger = draft / LEDGER
    ledger.write_text("".join(f"{name}\n" for name in sorted({*new, *earlier})), encoding="utf-8")
    ledger.replace(folder / LEDGER)
    for name in new:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (draft / name).replace(folder / name)
    for name in sorted(earlier - set(new)):
        (folder / name).unlink(missing_ok=True)
        if (folder / name).parent != folder:
            _remove_if_empty((folder / name).parent)
    ledger.write_text("".join(f"{name}\n" for name in new), encoding="utf-8")
    ledger.replace(folder / LEDGER)


def _ledger(folder: Path) -> set[str]:
    """Return the names of the files that ``folder`` has from here; names that lead out of it don't count."""
    try:
        names = (folder / LEDGER).read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return set()
    root = folder.resolve()
    return {name for name in names if name and (folder / name).resolve().is_relative_to(root)}
