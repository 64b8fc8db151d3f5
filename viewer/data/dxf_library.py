"""The library that writes DXF, without the settings of whoever runs this, and without clock and dice.

It looks for settings, and for a list of fonts, when it is imported, and fails where their folders cannot be read; and
what is written here should not depend on settings. Left alone it also writes the time and a random name into each file:
the same drawing gives the same bytes.
"""

from __future__ import annotations

import io
import os
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from pathlib import Path

SETTINGS, CACHE = "XDG_CONFIG_HOME", "XDG_CACHE_HOME"
"""Where libraries look for settings and for what they keep: XDG Base Directory Specification."""


@contextmanager
def _without_settings() -> Iterator[None]:
    """Let the library find no settings, and no cache where that cannot be read."""
    before = {name: os.environ.get(name) for name in (SETTINGS, CACHE)}
    os.environ[SETTINGS] = os.devnull
    if not _can_be_read(Path(before[CACHE] or "~/.cache")):
        os.environ[CACHE] = os.devnull
    words = io.StringIO()  # it prints what it could not read
    try:
        with redirect_stdout(words), redirect_stderr(words):
            yield
    finally:
        for name, value in before.items():
            os.environ.pop(name, None)
            if value is not None:
                os.environ[name] = value


def _can_be_read(folder: Path) -> bool:
    """Return whether what lies in a folder can be asked for."""
    try:
        (folder.expanduser() / "ezdxf" / "any").exists()
    except (OSError, RuntimeError):
        return False
    return True


with _without_settings():
    from ezdxf import options, units  # type: ignore[attr-defined] # public, but not said to be exported
    from ezdxf.document import Drawing as Document
    from ezdxf.enums import TextEntityAlignment
    from ezdxf.filemanagement import new
    from ezdxf.layouts.layout import Modelspace

options.write_fixed_meta_data_for_testing = True

__all__ = ["Document", "Modelspace", "TextEntityAlignment", "new", "units"]
