"""The command line: one command a file. What is heavy is imported inside the commands."""

from __future__ import annotations

import gc
import sys

SELDOM = 50_000
"""So many things are made before the collector looks for garbage: a command makes much, drops little and soon ends."""


def main() -> None:
    """Run the command that the arguments name."""
    gc.set_threshold(SELDOM)
    import typer

    from .commands import app_of, asked_of
    from .helps import told_in_asked_language

    arguments = sys.argv[1:]
    told_in_asked_language(typer.main.get_command(app_of(asked_of(arguments))), arguments)()
