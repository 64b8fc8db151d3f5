"""The other languages of a page: what is written in them, as the places of the payload that differ."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout

from ..words.find_language import LANGUAGES, language_called, name_of
from .browser_words import browser_words
from .payload import payload_of

Values = dict[str, Any]
Place = list[str | int]


def other_languages(
    layout: Layout, findings: Sequence[Finding], payload: Values, scripts: Path
) -> list[Values]:
    """Return each language that the page may be switched to, besides the one that ``payload`` is written in.

    Args:
        layout: What is shown.
        findings: What is wrong with it.
        payload: All that is shown, in the first language of the scene.
        scripts: Folder of the page's scripts.

    Returns:
        For each its ``code``, its ``name``, the ``words`` of the scripts, and ``places``: pairs of a path of keys and
        numbers into the payload, and what stands there in that language.
    """
    return [
        _language(code, layout, findings, payload, scripts) for code in LANGUAGES if code != first_of(layout)
    ]


def first_of(layout: Layout) -> str:
    """Return the code of the language that a page opens in."""
    return layout.scene.language[0]


def in_language(layout: Layout, *codes: str) -> Layout:
    """Return a layout that is told in one language, or in several beside each other."""
    return replace(layout, scene=layout.scene.model_copy(update={"language": codes}))


def _language(
    code: str, layout: Layout, findings: Sequence[Finding], payload: Values, scripts: Path
) -> Values:
    other = payload_of(in_language(layout, code), findings)
    return {
        "code": code,
        "name": name_of(code),
        "words": browser_words(language_called(code), scripts),
        "places": [[place, value] for place, value in differences(payload, other)],
    }


def differences(first: Any, second: Any) -> Iterator[tuple[Place, Any]]:
    """Yield where two values of the same make differ, and what the second has there.

    Example:
        >>> list(differences({"a": [1, "one"]}, {"a": [1, "uno"]}))
        [(['a', 1], 'uno')]
    """
    for key in _shared(first, second):
        if isinstance(first[key], Mapping | list) and _shared(first[key], second[key]):
            yield from (([key, *place], value) for place, value in differences(first[key], second[key]))
        elif first[key] != second[key]:
            yield [key], second[key]


def _shared(first: Any, second: Any) -> list[Any]:
    """Return the keys or numbers of two values that have the same ones; none where they have not."""
    if isinstance(first, Mapping) and isinstance(second, Mapping) and first.keys() == second.keys():
        return list(first)
    if isinstance(first, list) and isinstance(second, list) and len(first) == len(second):
        return list(range(len(first)))
    return []
