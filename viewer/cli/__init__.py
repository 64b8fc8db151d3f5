"""The command line: one command a file. What is heavy is imported inside the commands."""

from __future__ import annotations

import sys

import typer

from .app import app as live
from .buy import buy
from .changes import changes
from .check import check
from .compare import compare
from .film import film
from .helps import told_in_asked_language
from .improve import improve
from .offer import offer
from .page import page
from .photo import photo
from .picture import picture
from .preview import preview
from .roofs import roofs
from .sheets import sheets
from .spoken import with_language
from .tape import tape
from .window import window

app = typer.Typer(
    name="trimwright",
    help="Preview the metal trim of a standing-seam roof before anybody cuts.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Exit status: 0 clean, 1 findings of severity error, 2 cannot read or build.",
)

for command in (
    preview,
    check,
    picture,
    compare,
    improve,
    changes,
    film,
    page,
    sheets,
    buy,
    offer,
    photo,
    roofs,
    tape,
    window,
):
    app.command()(with_language(command))
app.command("app")(with_language(live))


def main() -> None:
    """Run the command that the arguments name."""
    told_in_asked_language(typer.main.get_command(app), sys.argv[1:])()
