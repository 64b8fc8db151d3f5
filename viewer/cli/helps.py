"""What ``--help`` says, in the language that is asked for with ``--language``."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, TypeAlias

from typer import core

from trimwright.model.message import Message, message

from ..words.find_language import LANGUAGES, language_called

if TYPE_CHECKING:
    from trimwright.model.message import Language

OPTION = "--language"

HELP_NAMES = ["-h", "--help"]
"""What asks for help."""

USAGE, OPTIONS, SHOWN = message("Usage:"), message("[OPTIONS]"), message("Show this message and exit.")
HEADINGS = (message("Arguments"), message("Options"), message("Commands"))
EXTRAS = (message("required"), Message("default: {default}"))
"""What typer says by itself; the last behind an argument or an option."""

Command: TypeAlias = Any
"""A command or a group of them, as typer makes it; it gives the type no name of its own."""


def told_in_asked_language(command: Command, arguments: Sequence[str]) -> Command:
    """Return a command whose help is told in the first language that its arguments name."""
    code = _asked(arguments)
    if code in LANGUAGES and code != "en":
        _tell(command, language_called(code))
    return command


def _asked(arguments: Sequence[str]) -> str:
    """Return the first code given with the option; English where there is none."""
    after = dict(zip(arguments, [*arguments[1:], ""], strict=True))
    joined = next((one.partition("=")[2] for one in arguments if one.startswith(f"{OPTION}=")), "")
    return (after.get(OPTION) or joined or "en").split(",")[0].strip()


def _tell(command: Command, language: Language) -> None:
    """Put the words of a command, of what it takes and of the commands in it into a language."""
    for told in (command, *command.params):
        words = getattr(told, "help", None)
        if words:
            vars(told)["help"] = language.sentence(words)
    if command.epilog:
        command.epilog = language.sentence(command.epilog)
    command.options_metavar = language.sentence(OPTIONS.text)
    command.context_class = _headed(command.context_class, language)
    asks = command.get_help_option(command.context_class(command, help_option_names=HELP_NAMES))
    asks.help = language.sentence(SHOWN.text)
    command.get_help = _saying(command.get_help, language)
    for one in getattr(command, "commands", {}).values():
        _tell(one, language)


def _saying(get_help: Callable[[Any], str], language: Language) -> Callable[[Any], str]:
    """Return what gives help, with what typer says behind arguments and options in a language; it asks gettext."""

    extras = {words.text for words in EXTRAS}

    def told(context: Any) -> str:
        words = vars(core)
        before = words["_"]
        words["_"] = lambda text: language.sentence(text) if text in extras else before(text)
        try:
            return get_help(context)
        finally:
            words["_"] = before

    return told


def _headed(context: Any, language: Language) -> Any:
    """Return a kind of context whose help has its headings in a language."""
    formatter: Any = context.formatter_class

    class ToldFormatter(formatter):  # type: ignore[misc]
        """Writes help under headings in the language."""

        def write_usage(self, prog: str, args: str = "", prefix: str | None = None) -> None:
            super().write_usage(prog, args, prefix or f"{language.sentence(USAGE.text)} ")

        def section(self, name: str) -> Any:
            return super().section(language.sentence(name))

    return type("ToldContext", (context,), {"formatter_class": ToldFormatter})
