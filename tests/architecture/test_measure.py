"""The measure of the code: what a reader can take in at once, and nothing that the formatter may not lay out."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILE, FUNCTION = 400, 50
"""The most lines of a file, and of a function from its ``def`` on."""

FILES = sorted(path for top in ("model", "viewer", "tests") for path in (ROOT / top).rglob("*.py"))
KEPT_FROM_FORMATTER = re.compile(r"# fmt: (skip|off)")


def long_functions(text: str, most: int = FUNCTION) -> Iterator[str]:
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            lines = (node.end_lineno or node.lineno) - node.lineno + 1
            if lines > most:
                yield f"{node.name}: {lines} lines, more than {most}"


def beyond_measure(text: str) -> list[str]:
    """Return what is wrong with the text of a file."""
    lines = text.splitlines()
    wrong = [] if len(lines) <= FILE else [f"{len(lines)} lines, more than {FILE}"]
    for number, line in enumerate(lines, 1):
        wrong += [f"line {number}: {mark[0]}" for mark in KEPT_FROM_FORMATTER.finditer(line)]
    return wrong + list(long_functions(text))


@pytest.mark.parametrize("top", ["model", "viewer", "tests"])
def test_every_file_and_function_keeps_the_measure(top: str) -> None:
    wrong = {
        str(path.relative_to(ROOT)): found
        for path in FILES
        if path.is_relative_to(ROOT / top) and (found := beyond_measure(path.read_text(encoding="utf-8")))
    }
    assert len(FILES) > 300 and not wrong


def test_what_is_beyond_the_measure_is_found() -> None:
    long = "async def cut():\n" + "    pass\n" * FUNCTION
    assert beyond_measure(long) == ["cut: 51 lines, more than 50"]
    assert beyond_measure("class Sheet:\n    " + long.replace("\n", "\n    ").rstrip()) == beyond_measure(
        long
    )
    assert beyond_measure(long.replace("    pass\n", "", 1)) == []
    assert beyond_measure("\n" * FILE) == []
    assert beyond_measure("\n" * (FILE + 1)) == ["401 lines, more than 400"]
    for word in ("skip", "off"):
        assert beyond_measure(f"x = [1,2]  # fmt: {word}") == [f"line 1: # fmt: {word}"]
