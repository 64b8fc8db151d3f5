"""The languages that there are words for: English as it stands in the code, others from a catalog beside this file."""

from __future__ import annotations

from collections.abc import Callable

from trimwright.model.errors import Problem, SceneError
from trimwright.model.message import ENGLISH, Language, Listed, message

LANGUAGES: dict[str, Callable[[], Language]] = {"en": lambda: ENGLISH}
"""By code, as in ISO 639; each is made when it is first asked for."""

NAMES = {"en": "English"}
"""What each calls itself."""


def language_called(code: str) -> Language:
    """Return the language whose code is ``code``.

    Raises:
        SceneError: There is none.
    """
    if code not in LANGUAGES:
        told = message(
            "there are no words for '{code}'; there are: {known}",
            code=code,
            known=Listed(tuple(LANGUAGES), "comma"),
        )
        raise SceneError(Problem(told, ("language",)))
    return LANGUAGES[code]()
