"""The working folder: the scene files in it, and working copies that outlive a crash. Nothing outside is touched."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path
from unicodedata import normalize

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.message import message

from ..whole_file import write_whole

LARGEST = 1_000_000
"""Bytes of a scene's text."""

TOO_LARGE = message("more than {most} bytes; a scene is a short text file", most=LARGEST)
"""What is said of a larger one."""

MOST_COPIES = 200
"""Working copies that are kept; the oldest go first."""

MOST_ATTACHED = 100
"""Files of one name that are kept beside each other."""

COPIES = ".trimwright"
"""Name of the folder of working copies."""

_NAME = re.compile(r"[^\W_][\w .,'&()+-]{0,79}")
MOST_BYTES = 180
"""Of a name: file systems take 255 for it with its key and its ending."""

_KEY = re.compile(r"[0-9a-f]{16}", re.ASCII)


class FolderError(TrimwrightError):
    """A file that cannot be read or written."""


@dataclass(frozen=True, slots=True)
class Copy:
    """A working copy.

    Attributes:
        key: Whose it is.
        name: Name of the scene, without ``.toml``.
        changed: When, in seconds since 1970.
    """

    key: str
    name: str
    changed: float


def scene_name(name: str) -> str:
    """Return a scene's name without its ending.

    Raises:
        FolderError: It is no plain file name.
    """
    stem = normalize("NFC", name.strip().removesuffix(".toml").strip())
    if not _is_name(stem):
        raise FolderError(
            message("give a name of letters, digits, spaces, dots and dashes, such as boat-shed")
        )
    return stem


def _is_name(stem: str) -> bool:
    """Return whether a scene may be called this: a plain file name in any script, that leads nowhere else."""
    return bool(_NAME.fullmatch(stem)) and ".." not in stem and len(stem.encode()) <= MOST_BYTES


@dataclass(frozen=True, slots=True)
class Folder:
    """A working folder."""

    path: Path

    def names(self) -> list[str]:
        """Return the names of the scenes in it; links that lead out of it are none."""
        files = (file for file in self.path.glob("*.toml") if file.is_file() and self._holds(file))
        return sorted(file.stem for file in files if _is_name(file.stem))

    def read(self, name: str) -> str:
        """Return the text of a scene.

        Raises:
            FolderError: There is none, it is too large, or no text.
        """
        return _read(self._file(name))

    def write(self, name: str, text: str) -> None:
        """Write a scene, all of it or nothing.

        Raises:
            FolderError: It cannot be written.
        """
        _write(self._file(name), text)

    def has(self, name: str) -> bool:
        """Return whether there is a scene of this name."""
        return self._file(name).exists()

    def in_the_way(self, name: str, own: str, known: Collection[str | None]) -> str:
        """Return why saving under ``name`` would take away what nobody here has seen; nothing where it would not.

        Args:
            name: The name.
            own: The name of the scene that is worked on.
            known: Its texts, as it was opened or saved last and as it is.
        """
        if not self.has(name):
            return ""
        if name != own:
            return f"{name}.toml is there already."
        try:
            there = self.read(name)
        except FolderError:
            there = None
        if there in known:
            return ""
        return f"{name}.toml is not what was opened or saved here: somebody else has written it."

    def keep(self, key: str, name: str, text: str) -> None:
        """Write a working copy in place of the one that ``key`` had.

        Raises:
            FolderError: It cannot be written.
        """
        file = self._copy(key, name)
        try:
            file.parent.mkdir(exist_ok=True)
        except OSError as error:
            told = message("cannot be made: {reason}", reason=(error.strerror or str(error)).lower())
            raise FolderError(Problem(told, file=COPIES)) from None
        _write(file, text)
        for copy in self.copies():
            if copy.key == key and copy.name != name:
                self._copy(key, copy.name).unlink(missing_ok=True)
        for copy in self.copies()[MOST_COPIES:]:
            self.discard(copy.key)

    def attach(self, name: str, raw: bytes) -> str:
        """Put a file beside the scenes, under a name that is free or has the same in it already; return that name.

        Args:
            name: What it is to be called, with its ending.
            raw: What it holds.

        Raises:
            FolderError: It cannot be written.
        """
        stem, dot, ending = name.rpartition(".")
        plain = re.sub(r"[^\w-]+", "-", normalize("NFC", stem)).strip("-_")[:60] or "file"
        for number in range(1, MOST_ATTACHED):
            told = f"{plain}{'' if number == 1 else f'-{number}'}{dot}{ending.lower()}"
            file = self._inside(self.path / told)
            try:
                if not file.exists():
                    write_whole(file, raw, lasting=True)
                elif file.read_bytes() != raw:
                    continue
            except OSError as error:
                told_why = message(
                    "cannot be written: {reason}", reason=(error.strerror or str(error)).lower()
                )
                raise FolderError(Problem(told_why, file=told)) from None
            return told
        raise FolderError(message("there are too many files of this name; take some away"))

    def copies(self) -> list[Copy]:
        """Return all working copies, the latest first."""
        found = []
        for file in (self.path / COPIES).glob("*.toml"):
            name, _, key = file.stem.rpartition("~")
            if _KEY.fullmatch(key) and _is_name(name) and file.is_file():
                found.append(Copy(key, name, file.stat().st_mtime))
        return sorted(found, key=lambda copy: -copy.changed)

    def copy_of(self, key: str) -> Copy | None:
        """Return the working copy of ``key``, None where there is none."""
        return next((copy for copy in self.copies() if copy.key == key), None)

    def kept(self, copy: Copy) -> str:
        """Return the text of a working copy.

        Raises:
            FolderError: It cannot be read.
        """
        return _read(self._copy(copy.key, copy.name))

    def discard(self, key: str) -> None:
        """Remove the working copy of ``key``."""
        for copy in self.copies():
            if copy.key == key:
                self._copy(key, copy.name).unlink(missing_ok=True)

    def _file(self, name: str) -> Path:
        return self._inside(self.path / f"{scene_name(name)}.toml")

    def _copy(self, key: str, name: str) -> Path:
        if not _KEY.fullmatch(key):
            raise FolderError(message("no such working copy"))
        return self._inside(self.path / COPIES / f"{scene_name(name)}~{key}.toml")

    def _holds(self, path: Path) -> bool:
        return path.resolve().is_relative_to(self.path.resolve())

    def _inside(self, path: Path) -> Path:
        """Return ``path`` if it is inside the folder once links are followed."""
        if not self._holds(path):
            raise FolderError(Problem(message("leads out of the working folder"), file=path.name))
        return path


def _read(file: Path) -> str:
    try:
        if not file.is_file():
            told = message("there is no such file in the working folder")
            raise FolderError(Problem(told, file=file.name))
        with file.open("rb") as opened:
            return text_of(opened.read(LARGEST + 1), file.name)
    except OSError as error:
        told = message("cannot be read: {reason}", reason=(error.strerror or str(error)).lower())
        raise FolderError(Problem(told, file=file.name)) from None


def text_of(raw: bytes, name: str) -> str:
    """Return the text of a file.

    Raises:
        FolderError: It is too large, or no UTF-8 text.
    """
    if len(raw) > LARGEST:
        raise FolderError(Problem(TOO_LARGE, file=name))
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError:
        raise FolderError(Problem(message("not UTF-8 text; save the file as UTF-8"), file=name)) from None


def _write(file: Path, text: str) -> None:
    try:
        write_whole(file, text.encode("utf-8"), lasting=True)
    except OSError as error:
        told = message("cannot be written: {reason}", reason=(error.strerror or str(error)).lower())
        raise FolderError(Problem(told, file=file.name)) from None
