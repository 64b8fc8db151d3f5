"""Files written whole: a draft beside the place, put there when it is complete."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def write_whole(path: Path, data: bytes, *, lasting: bool = False) -> None:
    """Write ``data`` to ``path`` all at once, or not at all.

    Args:
        path: A file; one that is there is replaced.
        data: What it holds.
        lasting: Wait until the disk has it, as for what a person typed and nothing else keeps.

    Raises:
        OSError: ``path`` cannot be written.
    """
    handle, draft = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            if lasting:
                file.flush()
                os.fsync(file.fileno())
        Path(draft).chmod(0o644)
        Path(draft).replace(path)
    except BaseException:
        Path(draft).unlink(missing_ok=True)
        raise
