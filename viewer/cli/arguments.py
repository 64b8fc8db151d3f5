"""Arguments that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

SceneFile = Annotated[Path, typer.Argument(metavar="SCENE", help="A scene: a TOML file.", show_default=False)]


def output_option(words: str) -> Any:
    """Return the option that says where to write; ``words`` say what, and where when it is left out."""
    return typer.Option("--output", "-o", help=words, show_default=False)
