"""Every sentence that there is to say: in the code, in the scripts of the browser, and in data files."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from babel.messages.catalog import Catalog as Entries
from babel.messages.extract import extract_javascript

from trimwright.model.limits.load import rule_sets
from trimwright.model.message import Message
from trimwright.model.metals import METALS
from trimwright.model.profiles.leg_words import catalogue_legs
from trimwright.model.source import Source

Sentence = str | tuple[str, str]
"""A sentence, or two: for a count of one, and for any other."""

VIEWER = Path(__file__).parents[1]
MODEL = Path(__file__).parents[2] / "model"

HELPS = ("help", "epilog")
"""What a command takes its help under."""

SPEAK = ("message", "say", "Message", "sentence", "counted")
"""What takes sentences; the last takes two."""


def sentences() -> Iterator[tuple[Sentence, str]]:
    """Yield every sentence, and the file that it stands in."""
    for folder in (MODEL, VIEWER):
        for file in sorted(folder.rglob("*.py")):
            yield from ((sentence, _name(file)) for sentence in _in_code(file))
    for file in sorted((VIEWER / "cli").glob("*.py")):
        yield from ((sentence, _name(file)) for sentence in _in_command(file))
    for file in sorted(VIEWER.rglob("*.js")):
        yield from ((sentence, _name(file)) for sentence in _in_script(file))
    yield from ((words.text, "model/limits/sets.toml") for words in _in_limits())
    yield from ((words.text, "model/metals.toml") for words in _in_metals())
    yield from ((words.text, "model/profiles/catalogue.toml") for words in catalogue_legs().values())


def template() -> Entries:
    """Return a catalog of all sentences, without a translation."""
    entries = Entries(project="Trimwright")
    for sentence, file in sentences():
        entries.add(sentence, locations=[(file, 0)])
    return entries


def _name(file: Path) -> str:
    return str(file.relative_to(MODEL.parent))


def _in_code(file: Path) -> Iterator[Sentence]:
    """Yield the sentences of a file of Python; Babel's own way misses those that are values of others."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            call = getattr(node.func, "id", getattr(node.func, "attr", ""))
            given = [one.value for one in node.args if isinstance(one, ast.Constant)]
            yield from _sentence(call, [one for one in given if isinstance(one, str)])


def _in_command(file: Path) -> Iterator[Sentence]:
    """Yield what the help of a command says: of itself, in the docstring of the function of its file's name."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.FunctionDef) and node.name == file.stem and (says := ast.get_docstring(node)):
            yield says
        if isinstance(node, ast.Call):
            given = [one.value for one in node.keywords if one.arg in HELPS]
            if getattr(node.func, "id", "") == "output_option":
                given += node.args
            for one in given:
                if isinstance(one, ast.Constant) and isinstance(one.value, str) and one.value:
                    yield one.value


def _in_script(file: Path) -> Iterator[Sentence]:
    """Yield the sentences of a script of the browser."""
    with file.open("rb") as opened:
        for _, call, found, _ in extract_javascript(opened, dict.fromkeys(SPEAK), [], {"encoding": "utf-8"}):
            given = [found] if isinstance(found, str) else list(found or ())
            yield from _sentence(str(call), [one for one in given if one])


def _sentence(call: str, given: list[str]) -> Iterator[Sentence]:
    """Yield the sentence that a call takes, if it stands in it."""
    if call == "counted" and len(given) > 1:
        yield given[0], given[1]
    elif call in SPEAK and call != "counted" and given:
        yield given[0]


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
