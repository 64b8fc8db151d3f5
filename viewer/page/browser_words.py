"""The words of the scripts that run in a browser: every sentence that they say, in the language of the scene."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Any, TypeAlias

from trimwright.model.message import ENGLISH, Language

Values = dict[str, Any]
Sentence: TypeAlias = str | tuple[str, str]
"""A sentence, or two: for a count of one, and for any other."""

COUNTS = range(200)
"""Counts whose words are handed out; a larger one reads as its last two digits and one hundred."""


def browser_words(language: Language, *folders: Path) -> Values:
    """Return what ``words.js`` takes: the sentences of all scripts in some folders, by the English ones.

    Args:
        language: The one that they are said in; English needs no sentences.
        folders: Where the scripts lie.
    """
    words: Values = {"code": language.code, "sentences": {}, "counted": {}}
    if language is ENGLISH:
        return words
    for sentence in sentences_in(folders):
        if isinstance(sentence, str):
            words["sentences"][sentence] = language.sentence(sentence)
        else:
            words["counted"][sentence[0]] = _forms(language, *sentence)
    return words


@cache
def sentences_in(folders: tuple[Path, ...]) -> tuple[Sentence, ...]:
    """Return every sentence that scripts say, as ``say("…")`` or ``counted("…", "…")`` has it."""
    return tuple(dict.fromkeys(_sentences(script for folder in folders for script in folder.rglob("*.js"))))


def _sentences(scripts: Iterable[Path]) -> Iterator[Sentence]:
    from babel.messages.extract import extract_javascript

    for script in scripts:
        with script.open("rb") as file:
            for _, call, given, _ in extract_javascript(file, {"say": None, "counted": None}, [], {}):
                texts = [given] if isinstance(given, str) else list(given)
                yield texts[0] if call == "say" else (texts[0], texts[1])


def _forms(language: Language, one: str, other: str) -> Values:
    """Return the different forms of a counted sentence, and which of them holds for each count, a digit each."""
    said = [language.counted(one, other, count) for count in COUNTS]
    forms = list(dict.fromkeys(said))
    return {"forms": forms, "which": "".join(str(forms.index(form)) for form in said)}
