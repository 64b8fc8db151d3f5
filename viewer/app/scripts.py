"""The modules and styles of the form, as they run in a browser."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

STATIC = Path(str(files(__package__) / "static"))
"""The folder that they lie in."""
