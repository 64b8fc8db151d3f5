"""The table of changes in DEVELOPERS.md: each file is there, has what the table names, and no change takes many."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
TABLE = TEXT.partition("## Where a change is made")[2].partition("\n## ")[0]
ROWS = [
    [cell.strip() for cell in line.strip("|").split(" | ")]
    for line in TABLE.splitlines()
    if line.startswith("| ") and not line.startswith("| change")
]

KIND_OF_EDGE = "`model/edge_kinds.py`"
"""Where a kind of edge is begun: it is found, named, colored, and given a profile, a file each."""


def test_there_are_ten() -> None:
    assert len(ROWS) == 10
    assert len({row[1] for row in ROWS}) == len(ROWS), "each has a file of its own"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_a_change_is_made_where_the_table_says(row: list[str]) -> None:
    _, file, at, *then = row
    text = (ROOT / file.strip("`")).read_text(encoding="utf-8")
    assert at.strip("`") in text
    others = [name for name in re.findall(r"`([\w/]+\.\w+)`", " ".join(then)) if "/" in name]
    assert len(others) <= (4 if file == KIND_OF_EDGE else 2)
    for name in others:
        assert (ROOT / name).exists()
