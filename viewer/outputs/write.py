"""Write outputs into a folder."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from ..whole_file import write_whole
from ..words.progress import Progress, nobody
from .formats import Output
from .work import Work


def write_outputs(
    outputs: Sequence[Output], work: Work, folder: Path, tell: Progress, inside: str = ""
) -> tuple[str, ...]:
    """Write the files of ``outputs``; return their names.

    Args:
        outputs: Which.
        work: What they are made of.
        folder: An existing folder; their own folders are made in it.
        tell: Told what begins.
        inside: Folder of theirs that ``folder`` itself is, such as ``buy/``.

    Raises:
        OSError: A file cannot be written.
    """
    names = []
    for number, output in enumerate(outputs, 1):
        tell(output.title, number, len(outputs))
        for path, data in output.make(work, tell):
            name = path.removeprefix(inside)
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            write_whole(folder / name, data)
            names.append(name)
    return tuple(names)


def made(output: Output, work: Work) -> bytes:
    """Return what is in the file of an output that is one file.

    Raises:
        ValueError: It is not one file.
    """
    [(_, data)] = output.make(work, nobody)
    return data
