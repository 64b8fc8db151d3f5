"""The command line: one command a file. What is heavy is imported inside the commands."""

from __future__ import annotations

import gc
import os
import sys

SELDOM = 200_000
"""So many things are made before the collector looks for garbage: a command makes much, drops little and soon ends."""

NO_PLUGINS = ("PYDANTIC_DISABLE_PLUGINS", "__all__")
"""Scenes are read without plugins: looking for some goes through every package that is installed."""


def main() -> None:
    """Run the command that the arguments name."""
    gc.set_threshold(SELDOM)
    os.environ.setdefault(*NO_PLUGINS)
    import typer

    from .commands import app_of, asked_of
    from .helps import told_in_asked_language

    arguments = sys.argv[1:]
    told_in_asked_language(typer.main.get_command(app_of(asked_of(arguments))), arguments)()
