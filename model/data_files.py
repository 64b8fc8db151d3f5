"""Data beside the code: TOML files that lie next to the module that reads them."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any


def tables_beside(module: str, name: str) -> dict[str, Any]:
    """Return the tables of the TOML file called ``name`` in the folder of ``module``, which is its ``__file__``."""
    return tomllib.loads(Path(module).with_name(name).read_text(encoding="utf-8"))
