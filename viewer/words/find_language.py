"""The languages that there are words for: English as it stands in the code, others from a catalog beside this file."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial
from pathlib import Path

from trimwright.model.errors import Problem, SceneError
from trimwright.model.message import ENGLISH, Language, Listed, message

CATALOGS = {path.stem: path for path in sorted(Path(__file__).parent.glob("*.po"))}
"""The files of sentences, by the code of their language."""


@cache
def _from_catalog(code: str) -> Language:
    """Return a language whose catalog lies beside this file; what reads it is only imported now."""
    from .catalog import read_catalog

    return read_catalog(CATALOGS[code])


LANGUAGES: dict[str, Callable[[], Language]] = {
    "en": lambda: ENGLISH,
    **{code: partial(_from_catalog, code) for code in CATALOGS},
}
"""By code, as in ISO 639; each is made when it is first asked for."""


def name_of(code: str) -> str:
    """Return what a language calls itself; the code, where nobody knows."""
    from babel import Locale, UnknownLocaleError

    try:
        return Locale.parse(code).get_display_name(code) or code
    except (UnknownLocaleError, ValueError):
        return code


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
