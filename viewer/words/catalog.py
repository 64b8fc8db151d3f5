"""A catalog: the sentences of one language, from a PO file; what it lacks is said in English."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from gettext import c2py
from pathlib import Path
from types import MappingProxyType

from babel.messages.catalog import Catalog as Entries
from babel.messages.catalog import Message as Entry
from babel.messages.pofile import read_po

from trimwright.model.message import places


@dataclass(frozen=True, slots=True, eq=False)
class Catalog:
    """One language.

    Attributes:
        code: Its code, as in ISO 639.
        said: What says each sentence; of those that count, by the sentence for one, every form.
        form: Which form a count takes.
    """

    code: str
    said: Mapping[str, tuple[str, ...]]
    form: Callable[[int], int]

    def sentence(self, text: str) -> str:
        """Return the sentence that says ``text``."""
        return self.said.get(text, (text,))[0]

    def counted(self, one: str, other: str, count: int) -> str:
        """Return the form that ``count`` takes of the sentence that says ``one``."""
        forms = self.said.get(one)
        if forms is None:
            return one if count == 1 else other
        return forms[min(self.form(count), len(forms) - 1)]


def read_catalog(path: Path) -> Catalog:
    """Return the language whose sentences are in a PO file named after its code: ``nb.po``."""
    entries = entries_in(path)
    said = {}
    for entry in entries:
        one = entry.id if isinstance(entry.id, str) else entry.id[0]
        forms = _forms(entry)
        if one and all(forms) and not entry.fuzzy:
            said[one] = forms
    return Catalog(path.stem, MappingProxyType(said), c2py(entries.plural_expr))


def entries_in(path: Path) -> Entries:
    """Return the entries of a PO file."""
    with path.open("rb") as file:
        return read_po(file, locale=path.stem)


def faults_in(entries: Entries) -> Iterator[str]:
    """Yield translations whose places are not those of the sentence: they would lack a value."""
    for entry in entries:
        if not entry.id or not entry.string or entry.fuzzy:
            continue
        ids = (entry.id,) if isinstance(entry.id, str) else tuple(entry.id)
        forms = _forms(entry)
        wanted = places(ids[-1])
        for form in filter(None, forms):
            if places(form) - {"count"} != wanted - {"count"}:
                yield f"{ids[0]!r} has the places {sorted(wanted)}, {form!r} has {sorted(places(form))}"


def _forms(entry: Entry) -> tuple[str, ...]:
    """Return what says a sentence, every form of it."""
    return (entry.string,) if isinstance(entry.string, str) else tuple(entry.string or ())
