"""The packet in a made-up language, each word 40 % longer: nothing is cut off, covered, or English."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from accented import CODE, plain_words, spoken
from collisions import collisions
from zoo import layout

from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.drawings.ink.drawing import Drawing, Words
from trimwright.viewer.drawings.ink.letters import plain
from trimwright.viewer.drawings.packet.packet import Packet, bind
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.drawings.paper.sizes import Paper
from trimwright.viewer.report.words import TRUST

COLOR = re.compile(r"#[0-9a-f]{6}")

UNACCENTED = set("bfghjklmqrtvwx")
"""Letters that have no accent in the made-up language: ``ft`` becomes ``ftt``."""

SCENES = ("boat-shed", "slip-shed", "bakehouse", "oar-store")


@pytest.fixture(scope="module", autouse=True)
def language() -> Iterator[str]:
    with spoken() as code:
        yield code


@cache
def worked_out(name: str, code: str) -> tuple[Layout, tuple[Finding, ...]]:
    there = layout(name)
    there = replace(there, scene=there.scene.model_copy(update={"language": tuple(code.split(","))}))
    return there, check(there)


@cache
def packet(name: str, paper: Paper, code: str) -> Packet:
    there, findings = worked_out(name, code)
    return bind(there, findings, timed_takeoff(there), imprint_of(there.scene, "2026-11-20"), paper)


def texts(page: Drawing) -> list[str]:
    return [item.text for item in page.items if isinstance(item, Words)]


def keys_of(there: Layout, findings: tuple[Finding, ...]) -> set[str]:
    """Return the words that stay as they are: what somebody typed, and the keys of scenes and reports."""
    typed = [
        there.scene.title,
        there.limits.name,
        *(name for edge in there.roof.edges for name in (edge.name, edge.kind)),
        *(face.name for face in there.roof.faces),
        *(leg.name for run in there.runs for leg in run.section.legs),
        *(run.section.profile for run in there.runs),
        *(text for finding in findings for text in (finding.rule, finding.where, finding.accepted or "")),
        *(text for limit in there.limits.by_rule.values() for text in (limit.rule, limit.reason or "")),
    ]
    sources = [limit.source for limit in there.limits.by_rule.values()]
    sources += [fact.source for fact in timed_takeoff(there).facts]
    typed += [source.title for source in sources if isinstance(source.title, str)]
    typed += TRUST
    return set(re.findall(r"[A-Za-z]{3,}", " ".join(map(str, typed))))


def english_in(text: str) -> set[str]:
    """Return the words of a text that nobody put into the made-up language; colors are no words."""
    return {word for word in plain_words(COLOR.sub("", text)) if set(word.lower()) - UNACCENTED}


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", SCENES)
def test_longer_words_cover_nothing(name: str, paper: Paper, language: str) -> None:
    found = [(page.title, one) for page in packet(name, paper, language).pages for one in collisions(page)]
    assert found == []


@pytest.mark.parametrize("name", SCENES)
def test_nothing_is_cut_off(name: str, language: str) -> None:
    assert [
        text for page in packet(name, "letter", language).pages for text in texts(page) if "..." in text
    ] == []


HALF_A_LENGTH = re.compile(r"(\d'|\d' \d+|(?<![\d/.])\b\d+)$")
"""How a line ends that breaks a length: after its feet, or before its fraction."""


def broken(page: Drawing) -> list[tuple[str, str]]:
    """Return lines that end within a length, each with the line after it."""
    lines = [plain(text) for text in texts(page)]
    return [
        (one, after)
        for one, after in pairwise(lines)
        if HALF_A_LENGTH.search(one) and not one.isdigit() and re.match(r"\d+(/\d+)?\"", after)
    ]


def test_a_broken_length_would_be_found() -> None:
    page = Drawing("", (8.5, 11.0), (Words("1' 7", (1.0, 2.0)), Words('3/4"', (1.0, 1.9))))
    assert broken(page) == [("1' 7", '3/4"')]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("code", ["en", "es", "en,es", CODE])
def test_no_line_ends_within_a_length(code: str, paper: Paper) -> None:
    assert [found for page in packet("bakehouse", paper, code).pages for found in broken(page)] == []


@pytest.mark.parametrize("name", SCENES)
def test_no_english_is_left(name: str, language: str) -> None:
    bound, keys = packet(name, "letter", language), keys_of(*worked_out(name, language))
    left = {word: text for page in bound.pages for text in texts(page) for word in english_in(text) - keys}
    assert left == {}
    for entry in bound.outline:
        assert english_in(entry.title) <= keys
