"""The commands, one a file: what is not asked for is not imported."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module

import typer

from .helps import HELP_NAMES
from .language_option import with_language

COMMANDS = (
    "preview",
    "check",
    "picture",
    "compare",
    "improve",
    "changes",
    "film",
    "page",
    "sheets",
    "buy",
    "offer",
    "photo",
    "roofs",
    "tape",
    "window",
    "app",
)
"""In the order of the help: each is the function of this name, in the file of this name."""


def app_of(commands: Sequence[str] = COMMANDS) -> typer.Typer:
    """Return the command line with some of its commands, or all of them."""
    app = typer.Typer(
        name="trimwright",
        help="Preview the metal trim of a standing-seam roof before anybody cuts.",
        no_args_is_help=True,
        add_completion=False,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        context_settings={"help_option_names": HELP_NAMES},
        epilog="Exit status: 0 clean, 1 findings of severity error, 2 cannot read or build.",
    )
    app.callback()(_nothing)
    for name in commands:
        app.command(name)(with_language(getattr(import_module(f".{name}", __package__), name)))
    return app


def _nothing() -> None:  # a command that stands alone is still called by its name
    pass


def asked_of(arguments: Sequence[str]) -> Sequence[str]:
    """Return the command that the first of the arguments names; all of them where it names none."""
    return [name for name in COMMANDS if [name] == list(arguments[:1])] or COMMANDS
