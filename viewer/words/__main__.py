"""Begin a language, or bring its catalog up to date: ``python -P -m trimwright.viewer.words viewer/words/nb.po``."""

from __future__ import annotations

import sys
from pathlib import Path

from babel.messages.catalog import Catalog as Entries
from babel.messages.pofile import write_po

from .catalog import entries_in, faults_in
from .sentences import template


def main(arguments: list[str]) -> None:
    """Write every sentence into a PO file; translations that are there stay, and what is wrong with them is told."""
    path = Path(arguments[0])
    entries = entries_in(path) if path.exists() else Entries(locale=path.stem, project="Trimwright")
    entries.update(template())
    with path.open("wb") as file:
        write_po(file, entries, no_location=False, omit_header=False, width=120)
    left = sum(1 for entry in entries if entry.id and not entry.string)
    print(f"{path}: {len(entries)} sentences, {left} to translate")
    for fault in faults_in(entries):
        print(fault)


if __name__ == "__main__":
    main(sys.argv[1:])
