"""Files written whole: a draft beside the place, put there when it is complete.

A run that is killed leaves its draft behind. Each draft is a folder that is locked for as long as its run lives, so
that the next run that writes beside it can tell which ones nobody works on any more, and takes them away.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

if sys.platform != "win32":
    import fcntl

UNFINISHED = ".trimwright-unfinished-"
"""What the name of a hidden folder begins with while its files are being written."""

NEW = ".trimwright-new-"
"""The same before it is locked."""


def write_whole(path: Path, data: bytes, *, lasting: bool = False) -> None:
    """Write ``data`` to ``path`` all at once, or not at all.

    Args:
        path: A file; one that is there is replaced.
        data: What it holds.
        lasting: Wait until the disk has it, as for what a person typed and nothing else keeps.

    Raises:
        OSError: ``path`` cannot be written.
    """
    with draft_in(path.parent) as folder:
        draft = folder / path.name
        with draft.open("wb") as file:
            file.write(data)
            if lasting:
                file.flush()
                os.fsync(file.fileno())
        draft.chmod(0o644)
        draft.replace(path)


@contextmanager
def draft_in(folder: Path) -> Iterator[Path]:
    """Give an empty hidden folder inside ``folder``, and take it away at the end; those of killed runs go first.

    Raises:
        OSError: It cannot be made.
    """
    for left in folder.glob(f"{UNFINISHED}*"):
        lock = _locked(left)
        if lock is not None:
            shutil.rmtree(left, ignore_errors=True)
            os.close(lock)
    new = Path(tempfile.mkdtemp(prefix=NEW, dir=folder))
    lock = _locked(new)  # before it has the name by which others know it
    draft = new.rename(folder / f"{UNFINISHED}{new.name.removeprefix(NEW)}")
    try:
        yield draft
    finally:
        shutil.rmtree(draft, ignore_errors=True)
        if lock is not None:
            os.close(lock)


def _locked(folder: Path) -> int | None:
    """Return the handle of a folder that is locked from now on; None where somebody has it, or locks are unknown."""
    if sys.platform == "win32":
        return None
    try:
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    except OSError:
        return None
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(handle)
        return None
    return handle
