"""Problems: whatever keeps a command from its work is told in one line each, and ends it with 2."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

import typer

from trimwright.model.errors import SceneError, TrimwrightError

CANNOT = 2
"""Exit status of a command that cannot read, build or write."""

STOPPED = 130
"""Exit status of a command that was interrupted, as shells have it."""


class OutputError(TrimwrightError):
    """Something that cannot be written where it was asked for."""


@contextmanager
def told() -> Iterator[None]:
    """Tell every problem on standard error and end the command; a fault of the program's own, too."""
    try:
        yield
    except TrimwrightError as error:
        _tell(lines_of(error))
        raise typer.Exit(CANNOT) from None
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise typer.Exit(0) from None
    except KeyboardInterrupt:
        _tell(["stopped; nothing was written"])
        raise typer.Exit(STOPPED) from None
    except (typer.Exit, typer.Abort):
        raise
    except Exception as error:
        _tell([_own_fault(error)])
        raise typer.Exit(CANNOT) from None


def lines_of(error: TrimwrightError) -> tuple[str, ...]:
    """Return the problems of ``error``, one line each."""
    problems = error.problems if isinstance(error, SceneError) else (str(error),)
    return tuple(" ".join(problem.split()) for problem in problems)


@contextmanager
def placed_in(scene: Path) -> Iterator[None]:
    """Begin each problem that arises inside with the name of the scene's file."""
    try:
        yield
    except TrimwrightError as error:
        raise SceneError([f"{scene.name}: {line}" for line in lines_of(error)]) from None


def _tell(lines: Iterable[str]) -> None:
    for line in lines:
        typer.echo(line, err=True)


def _own_fault(error: Exception) -> str:
    """Return one line that says where the program itself went wrong."""
    frames = traceback.extract_tb(error.__traceback__)
    own = [frame for frame in frames if "trimwright" in Path(frame.filename).parts] or frames
    where = f"{Path(own[-1].filename).name} line {own[-1].lineno}" if own else "nowhere"
    said = " ".join(str(error).split())[:200]
    what = f"{where}: {type(error).__name__}: {said}"
    return f"a fault in trimwright itself ({what}); please report it with the scene"
