"""Every sentence that there is to say: in the code, in the scripts of the browser, and in data files."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from babel.messages.catalog import Catalog as Entries
from babel.messages.extract import extract_javascript, extract_python

from trimwright.model.limits.load import rule_sets
from trimwright.model.message import Message
from trimwright.model.metals import METALS
from trimwright.model.source import Source

Sentence = str | tuple[str, str]
"""A sentence, or two: for a count of one, and for any other."""

VIEWER = Path(__file__).parents[1]
MODEL = Path(__file__).parents[2] / "model"

SPEAK = {"message": None, "say": None, "Message": None, "sentence": None, "counted": (1, 2)}
"""What takes sentences."""


def sentences() -> Iterator[tuple[Sentence, str]]:
    """Yield every sentence, and the file that it stands in."""
    for folder in (MODEL, VIEWER):
        for file in sorted(folder.rglob("*.py")):
            yield from _found(extract_python, file)
    for file in sorted(VIEWER.rglob("*.js")):
        yield from _found(extract_javascript, file)
    yield from ((words.text, "model/limits/sets.toml") for words in _in_limits())
    yield from ((words.text, "model/metals.toml") for words in _in_metals())


def template() -> Entries:
    """Return a catalog of all sentences, without a translation."""
    entries = Entries(project="Trimwright")
    for sentence, file in sentences():
        entries.add(sentence, locations=[(file, 0)])
    return entries


def _found(extract: Any, file: Path) -> Iterator[tuple[Sentence, str]]:
    """Yield the sentences of one file of code."""
    name = str(file.relative_to(MODEL.parent))
    with file.open("rb") as opened:
        for _, call, given, _ in extract(opened, SPEAK, [], {"encoding": "utf-8"}):
            texts = [given] if isinstance(given, str) else list(given or ())
            if call == "counted" and len(texts) > 1 and texts[0] and texts[1]:
                yield (texts[0], texts[1]), name
            elif call != "counted" and texts and texts[0]:
                yield texts[0], name


def _in_limits() -> Iterator[Message]:
    for rules in rule_sets().values():
        yield from _in_sources(limit.source for limit in rules.limits.values())


def _in_metals() -> Iterator[Message]:
    for metal in METALS.values():
        yield metal.title
        yield from _in_sources(value for value in _values(metal) if isinstance(value, Source))


def _values(record: Any) -> list[Any]:
    return [getattr(record, name) for name in record.__dataclass_fields__]


def _in_sources(sources: Iterable[Source]) -> Iterator[Message]:
    for source in sources:
        yield from (words for words in (source.title, source.note) if isinstance(words, Message))
