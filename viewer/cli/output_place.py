"""Where output goes: written to a hidden folder first and moved into place when all of it is there."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from trimwright.model.errors import Problem
from trimwright.model.message import message

from ..whole_file import draft_in
from .problems import OutputError

LEDGER = ".trimwright-files"
"""Names of the files that a folder has from here, one a line: these may be replaced, all others stay."""


@contextmanager
def output_folder(folder: Path, whole: bool = True) -> Iterator[Path]:
    """Give an empty folder to write to, and move its files into ``folder`` when the block ends well.

    Earlier files of ours are replaced, or taken away when they are not made any more; unless the ``whole`` folder is
    made, those that are not made stay. When the block raises, or something that is not ours is in the way of a file,
    ``folder`` stays as it was.

    Raises:
        OutputError: ``folder`` cannot be made or written to, or a file of somebody else's is in the way.
    """
    with _draft_in(folder) as draft:
        yield draft
        _move(draft, folder, whole)


@contextmanager
def output_file(path: Path, suffix: str) -> Iterator[Path]:
    """Give a path to write to, and move what is there to ``path`` when the block ends well.

    Raises:
        OutputError: ``path`` has another suffix, is a folder, or cannot be written.
    """
    if path.suffix.lower() != suffix:
        told = message("this would be a {suffix} file; give a name that ends in {suffix}", suffix=suffix)
        raise OutputError(Problem(told, file=str(path)))
    with _refusals(path):
        if path.is_dir():
            told = message("this is a folder; give a file, such as {file}", file=f"{path / 'roof'}{suffix}")
            raise OutputError(Problem(told, file=str(path)))
    with _draft_in(path.parent) as draft:
        yield draft / path.name
        (draft / path.name).replace(path)


def better_path(scene: Path, asked: Path | None) -> Path:
    """Return where a better scene is written: where it is asked for, never over the scene itself.

    Raises:
        OutputError: It is the scene itself.
    """
    path = asked or Path("out", f"{scene.stem}-better.toml")
    if path.resolve() == scene.resolve():
        told = message("this is the scene itself, which stays as it is; give another name with -o")
        raise OutputError(Problem(told, file=str(path)))
    return path


@contextmanager
def _draft_in(folder: Path) -> Iterator[Path]:
    """Give a hidden folder inside ``folder``, which is made if need be and taken away again on failure."""
    with _refusals(folder):
        missing = [path for path in (folder, *folder.parents) if not path.exists()]
    try:
        with _refusals(folder):
            folder.mkdir(parents=True, exist_ok=True)
            with draft_in(folder) as draft:
                yield draft
    except BaseException:
        for path in missing:
            _remove_if_empty(path)
        raise


@contextmanager
def _refusals(path: Path) -> Iterator[None]:
    """Say what the system refuses in one line that names ``path``."""
    try:
        yield
    except (FileExistsError, NotADirectoryError):
        told = message("a file is in the way of this folder; give another with -o")
        raise OutputError(Problem(told, file=str(path))) from None
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        name = str(path) if len(str(path)) <= 120 else f"{str(path)[:117]}..."
        told = message("cannot be written: {reason}; give another place with -o", reason=reason)
        raise OutputError(Problem(told, file=name)) from None


def _remove_if_empty(folder: Path) -> None:
    try:
        folder.rmdir()
    except OSError:
        return


def _move(draft: Path, folder: Path, whole: bool) -> None:
    """Move every file of ``draft`` to the same place in ``folder``; take away the earlier ones if it is the whole."""
    new = sorted(path.relative_to(draft).as_posix() for path in draft.rglob("*") if path.is_file())
    earlier = _ledger(folder)
    for name in new:
        there = folder / name
        if there.is_dir():
            told = message("a folder is in the way; move it, or give another folder with -o")
            raise OutputError(Problem(told, file=str(there)))
        if there.exists() and name not in earlier:
            told = message(
                "a file that was not written from here is in the way; move it, or give another folder with -o"
            )
            raise OutputError(Problem(told, file=str(there)))
    ledger = draft / LEDGER
    ledger.write_text("".join(f"{name}\n" for name in sorted({*new, *earlier})), encoding="utf-8")
    ledger.replace(folder / LEDGER)
    for name in new:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (draft / name).replace(folder / name)
    for name in sorted(earlier - set(new)) if whole else ():
        (folder / name).unlink(missing_ok=True)
        if (folder / name).parent != folder:
            _remove_if_empty((folder / name).parent)
    kept = new if whole else sorted({*new, *earlier})
    ledger.write_text("".join(f"{name}\n" for name in kept), encoding="utf-8")
    ledger.replace(folder / LEDGER)


def _ledger(folder: Path) -> set[str]:
    """Return the names of the files that ``folder`` has from here; names that lead out of it don't count."""
    try:
        names = (folder / LEDGER).read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return set()
    root = folder.resolve()
    return {name for name in names if name and (folder / name).resolve().is_relative_to(root)}
