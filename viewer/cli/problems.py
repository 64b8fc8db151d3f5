"""Problems: whatever keeps a command from its work is told in one line each, and ends it with 2."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from difflib import get_close_matches
from pathlib import Path

import typer

from trimwright.model.errors import SceneError, TrimwrightError
from trimwright.model.measures import printable
from trimwright.model.message import Listed, Message, message
from trimwright.model.scene.tables import LARGEST

from ..words.speaker import Speaker, speaker, speaker_for
from .asked_language import asked_languages

CANNOT = 2
"""Exit status of a command that cannot read, build or write."""

STOPPED = 130
"""Exit status of a command that was interrupted, as shells have it."""


class OutputError(TrimwrightError):
    """Something that cannot be written where it was asked for."""


class ChoiceError(TrimwrightError):
    """An option's value that is none of those there are."""

    def __init__(self, option: str, given: str, known: Iterable[str]) -> None:
        """Say which there are, and which of them may be meant."""
        super().__init__(_no_choice(option, given, tuple(known)))


def _no_choice(option: str, given: str, known: tuple[str, ...]) -> Message:
    """Return that ``given`` is none of the ``known`` values, which is meant, and which there are."""
    near = get_close_matches(given, known, 1)
    if near:
        return message(
            "{option}: there is no '{given}'; did you mean '{near}'? there are: {known}",
            option=option,
            given=given,
            near=near[0],
            known=Listed(known, "comma"),
        )
    return message(
        "{option}: there is no '{given}'; there are: {known}",
        option=option,
        given=given,
        known=Listed(known, "comma"),
    )


@contextmanager
def told(scene: Path | None = None) -> Iterator[None]:
    """Tell every problem on standard error and end the command; a fault of the program's own, too.

    They are told as ``scene`` asks for it, as far as it can be read.
    """
    try:
        yield
    except TrimwrightError as error:
        say = speaker_in(scene)
        _tell(say(one) for one in error.problems)
        raise typer.Exit(CANNOT) from None
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise typer.Exit(0) from None
    except KeyboardInterrupt:
        _tell([speaker_in(scene)("stopped; nothing was written")])
        raise typer.Exit(STOPPED) from None
    except (typer.Exit, typer.Abort):
        raise
    except Exception as error:
        _tell([speaker_in(scene)(own_fault(error))])
        raise typer.Exit(CANNOT) from None


@contextmanager
def placed_in(scene: Path) -> Iterator[None]:
    """Say of each problem that arises inside that it is one of the scene's file."""
    try:
        yield
    except TrimwrightError as error:
        raise SceneError(*error.within(scene.name)) from None


def _tell(lines: Iterable[str]) -> None:
    for line in lines:
        typer.echo(printable(line), err=True)


def speaker_in(scene: Path | None) -> Speaker:
    """Return the speaker that the command or else a scene's file asks for, as far as it can be read."""
    try:
        own = speaker_for(_beginning_of(scene) if scene and scene.is_file() else "")
    except (OSError, ValueError):
        own = Speaker()
    return speaker(asked_languages(), own.tape) if asked_languages() else own


def _beginning_of(scene: Path) -> str:
    """Return the text of a file, as much of it as a scene has at most."""
    with scene.open("rb") as file:
        return file.read(LARGEST).decode("utf-8-sig")


def own_fault(error: Exception) -> Message:
    """Return where the program itself went wrong."""
    frames = traceback.extract_tb(error.__traceback__)
    own = [frame for frame in frames if "trimwright" in Path(frame.filename).parts] or frames
    where = f"{Path(own[-1].filename).name}:{own[-1].lineno}" if own else "?"
    said = " ".join(str(error).split())[:200]
    return message(
        "a fault in trimwright itself ({where}: {kind}: {reason}); please report it with the scene",
        where=where,
        kind=type(error).__name__,
        reason=said,
    )
