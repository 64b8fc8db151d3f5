"""The option ``--language``, which every command has."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from functools import wraps
from typing import Annotated, Any

import typer

from ..words.find_language import LANGUAGES
from .asked_language import asking
from .problems import ChoiceError, told

Option = Annotated[
    str | None,
    typer.Option(
        "--language",
        metavar=f"<{'|'.join(LANGUAGES)}>[,…]",
        help="Say everything in this language, or in several beside each other, such as en,es.",
        show_default=False,
    ),
]


def with_language(command: Callable[..., None]) -> Callable[..., None]:
    """Return a command that takes ``--language`` beside what it takes by itself."""

    @wraps(command)
    def spoken(*, language: str | None = None, **given: Any) -> None:
        with told():
            codes = _codes(language)
        with asking(codes):
            command(**given)

    signature = inspect.signature(command, eval_str=True)
    option = inspect.Parameter("language", inspect.Parameter.KEYWORD_ONLY, default=None, annotation=Option)
    taken = signature.replace(parameters=[*signature.parameters.values(), option])
    vars(spoken).update(__signature__=taken)
    spoken.__annotations__ = {**inspect.get_annotations(command, eval_str=True), "language": Option}
    return spoken


def _codes(given: str | None) -> tuple[str, ...]:
    """Return the codes in what was typed.

    Raises:
        ChoiceError: There are no words for one of them.
    """
    codes = tuple(dict.fromkeys(part.strip() for part in (given or "").split(",") if part.strip()))
    for code in codes:
        if code not in LANGUAGES:
            raise ChoiceError("--language", code, LANGUAGES)
    return codes
