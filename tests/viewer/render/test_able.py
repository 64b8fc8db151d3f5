"""Whether this machine can draw is asked before drawing, so that it never ends in a crash."""

from collections.abc import Iterator

import pytest

from trimwright.viewer.render import able
from trimwright.viewer.render.errors import PictureError


@pytest.fixture(autouse=True)
def asked_anew() -> Iterator[None]:
    able._draws.cache_clear()
    yield
    able._draws.cache_clear()


def test_this_machine_draws() -> None:
    able.require_drawing()


def test_without_a_driver_it_says_what_is_wanting(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.setenv("VTK_DEFAULT_OPENGL_WINDOW", "vtkXOpenGLRenderWindow")
    with pytest.raises(PictureError, match="libegl1"):
        able.require_drawing()


def test_a_process_that_cannot_be_started_is_a_no(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(able.sys, "executable", "/nowhere/python")
    with pytest.raises(PictureError):
        able.require_drawing()
