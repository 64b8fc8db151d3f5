"""The pages for developers: their map has every folder, and every file that they name is there."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGES = [
    ROOT / "DEVELOPERS.md",
    ROOT / "docs" / "pipeline.md",
    *sorted((ROOT / "docs" / "decisions").glob("*.md")),
]
FILES = [
    path.relative_to(ROOT).as_posix()
    for top in ("model", "viewer", "tests", "docs", "scenes")
    for path in (ROOT / top).rglob("*")
    if path.is_file()
]
MAP = PAGES[0].read_text(encoding="utf-8").partition("## Folders")[2].partition("\n## ")[0]

NAMED = re.compile(r"`((?:[\w-]+/)*[\w-]+\.(?:py|js|toml|css|po))`")
"""A file that a page names; one whose name is to be chosen has other signs in it."""

BY_WAY_OF_EXAMPLE = {"viewer/words/nb.po"}
OF_THE_BROWSER = ("trimwright/", "viewer/page/static/")
"""What modules in the browser are called by, and where they lie."""


def missing(page: str) -> list[str]:
    """Return the files that a page names and that are nowhere; a name may leave out the folders before it."""
    named = {re.sub(rf"^{OF_THE_BROWSER[0]}", OF_THE_BROWSER[1], name) for name in NAMED.findall(page)}
    known = {*FILES, "pyproject.toml"}
    return sorted(
        name
        for name in named - BY_WAY_OF_EXAMPLE
        if name not in known and not any(file.endswith(f"/{name}") for file in known)
    )


def folders() -> Iterator[str]:
    """Yield the folders of code, each by the name that the map has for it."""
    for top in ("model", "viewer", "viewer/drawings", "viewer/page/static"):
        for path in sorted((ROOT / top).iterdir()):
            if path.is_dir() and any(file.suffix in (".py", ".js") for file in path.rglob("*")):
                yield f"{path.name}/"
    for path in sorted((ROOT / "tests").iterdir()):
        if path.is_dir() and path.name != "__pycache__":
            yield f"{path.name}/"


def test_the_map_has_every_folder() -> None:
    there = set(re.findall(r"\w+/", MAP))
    assert [name for name in folders() if name not in there] == []
    assert len(list(folders())) > 40


def test_the_map_has_every_file_at_the_root_of_the_model() -> None:
    there = set(re.findall(r"\w+", MAP.partition("*.py")[2].partition("viewer/")[0]))
    assert {path.stem for path in (ROOT / "model").glob("*.py")} - {"__init__"} - there == set()


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_file_that_a_page_names_is_there(page: Path) -> None:
    assert missing(page.read_text(encoding="utf-8")) == []


def test_a_file_that_is_not_there_is_found() -> None:
    assert missing("see `model/joints/bend.py`, `sheet/fold.py` and `viewer/nowhere.js`") == [
        "model/joints/bend.py",
        "viewer/nowhere.js",
    ]
    assert missing("a module is imported as `trimwright/read/nothing.js`") == [
        "viewer/page/static/read/nothing.js"
    ]
