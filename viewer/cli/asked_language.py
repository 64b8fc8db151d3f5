"""The languages that a command was asked to speak: they come before what the scene asks for."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trimwright.model.scene.schema import Scene

_asked: ContextVar[tuple[str, ...]] = ContextVar("asked", default=())


def asked_languages() -> tuple[str, ...]:
    """Return the codes that the command was given; none where the scene decides."""
    return _asked.get()


@contextmanager
def asking(codes: tuple[str, ...]) -> Iterator[None]:
    """Let all be said in these languages inside; with none, as each scene asks for it."""
    before = _asked.set(codes)
    try:
        yield
    finally:
        _asked.reset(before)


def in_asked_language(scene: Scene) -> Scene:
    """Return the scene, in the languages that the command was given."""
    return scene.model_copy(update={"language": asked_languages()}) if asked_languages() else scene
