"""What is told to a person: every sentence stands whole in the code, has its values, and is joined to nothing."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from trimwright.model.message import places

ROOT = Path(__file__).parents[2]
FILES = sorted(path for folder in ("model", "viewer") for path in (ROOT / folder).rglob("*.py"))

SPEAK = {"message": 1, "say": 1, "Message": 1, "counted": 2}
"""What takes sentences, and how many of them."""

FROM_DATA = {"model/metals.py", "model/source.py", "model/profiles/leg_words.py"}
"""These make messages of sentences that stand in data files."""

THEMSELVES = {"model/message.py", "viewer/words/speaker.py", "viewer/page/browser_words.py"}
"""These hand on what they are given."""


def calls(tree: ast.AST) -> Iterator[tuple[str, ast.Call]]:
    """Yield every call of what takes a sentence, by its name."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            if name in SPEAK:
                yield name, node


def literal(node: ast.expr) -> str | None:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None


def faults_of_call(name: str, node: ast.Call) -> Iterator[str]:
    """Yield what is wrong with a call: no literal, a fragment, a value too few or too many."""
    sentences = [literal(argument) for argument in node.args[: SPEAK[name]]]
    if None in sentences or len(sentences) < SPEAK[name]:
        built = any(
            isinstance(one, ast.JoinedStr | ast.BinOp | ast.IfExp | ast.Constant) for one in node.args[:1]
        )
        if name != "say" or built or not node.args:
            yield f"no sentence that stands here: {ast.unparse(node)[:80]}"
        return
    given = (
        None if any(keyword.arg is None for keyword in node.keywords) else {one.arg for one in node.keywords}
    )
    for sentence in filter(None, sentences):
        if sentence != sentence.strip():
            yield f"a fragment: {sentence!r}"
        wanted = places(sentence) - ({"count"} if name == "counted" else set())
        if given is not None and name in ("message", "say") and wanted != given:
            yield f"{sentence!r} has the places {sorted(wanted)} and the values {sorted(filter(None, given))}"
    if "" in sentences:
        yield "a sentence of nothing"


def speaks(node: ast.AST) -> bool:
    return any(True for name, _ in calls(node) if name != "Message")


def faults_of_joining(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Yield sentences that other words are joined to."""
    for node in ast.walk(tree):
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
            sides = (node.left, node.right)
            if any(isinstance(side, ast.Call) and speaks(side) for side in sides) and any(
                map(literal, sides)
            ):
                yield node.lineno, f"joined with +: {ast.unparse(node)[:80]}"
        if isinstance(node, ast.JoinedStr):
            hidden = [call for _, call in calls(node) if any(map(literal, call.args))]
            if hidden:
                yield node.lineno, f"in an f-string, where no catalog looks: {ast.unparse(hidden[0])[:80]}"
            values = [one for one in node.values if isinstance(one, ast.FormattedValue)]
            if any(speaks(value) for value in values):
                plain = "".join(literal(one) or "0" for one in node.values)
                words = re.sub(r"<[^>]*>|&\w+;", "", plain)
                if re.search(r"[A-Za-z]{3,}", words):
                    yield node.lineno, f"joined in an f-string: {words[:80]}"


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_sentences_stand_whole(path: Path) -> None:
    name = str(path.relative_to(ROOT))
    tree = ast.parse(path.read_text(encoding="utf-8"))
    faults = list(faults_of_joining(tree))
    if name not in THEMSELVES:
        for word, node in calls(tree):
            if not (word == "Message" and name in FROM_DATA):
                faults += [(node.lineno, fault) for fault in faults_of_call(word, node)]
    assert faults == []


@pytest.mark.parametrize(
    "code",
    [
        'message(f"cut {mark}")',
        'say("cut " + mark)',
        'say("cut" if short else "fold")',
        "message(words, mark=mark)",
        'message("cut {mark}")',
        'message("cut {mark}", mark=mark, lap=lap)',
        'message(" and cut")',
        'message("")',
        'counted("one", count=3)',
        'say("cut {mark}", mark=mark) + ", then fold"',
        'f"{say(words)} and then fold"',
        "f\"<li>{say('None.')}</li>\"",
    ],
)
def test_what_a_translator_could_not_take_is_found(code: str) -> None:
    tree = ast.parse(code)
    found = [fault for name, node in calls(tree) for fault in faults_of_call(name, node)]
    assert [*found, *faults_of_joining(tree)]


@pytest.mark.parametrize(
    "code",
    [
        'message("cut {mark}", mark=mark)',
        'message("cut {mark}", **values)',
        "say(finding.message)",
        'say("run")',
        'counted("{count} lap of {mark}", "{count} laps of {mark}", count=n, mark=mark)',
        'f"<li>{say(finding.message)}</li>"',
    ],
)
def test_what_a_translator_can_take_is_let_pass(code: str) -> None:
    tree = ast.parse(code)
    found = [fault for name, node in calls(tree) for fault in faults_of_call(name, node)]
    assert [*found, *faults_of_joining(tree)] == []
