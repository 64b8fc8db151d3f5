"""How soon the page is there, answers a tap and steps, with forty pieces and with four hundred.

Nothing here asserts a time. Run with ``pytest -m benchmark -s``.
"""

import statistics
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.benchmark.house import HOUSE
from tests.viewer.page.looking import Looking, long_store, opened, page_from

pytestmark = pytest.mark.benchmark

TASKS = {
    "step forward": ("roof.setStep(120); view.painter.drawNow()", "setStep(119)"),
    "step back": ("roof.setStep(119); view.painter.drawNow()", "setStep(120)"),
    "open the order": ("roof.open('order')", ""),
    "open the list of pieces": ("roof.open('pieces')", ""),
    "lift the trim": ("view.arrangement.liftApart(0.5); view.painter.drawNow()", ""),
    "draw every piece, marked": ("view.painter.drawNow()", "standAt('bare')"),
    "tap": ("probe.tapped(400, 400)", ""),
}
"""What is timed on the page of four hundred pieces: the work, and what is done before it."""


def taken(looking: Looking, words: str, before: str = "") -> float:
    """The median of five times that the page's script takes, milliseconds."""
    times = []
    for _ in range(5):
        if before:
            looking.roof(before)
        times.append(looking.probe(f"takes({words!r})"))
    return statistics.median(times)


def test_forty_pieces(chromium: Browser, tmp_path: Path) -> None:
    text, ready = page_from(HOUSE), []
    for number in range(5):
        context = chromium.new_context(viewport={"width": 390, "height": 844}, reduced_motion="reduce")
        looking = opened(context, text, tmp_path / f"roof-{number}.html")
        ready.append(looking.page.evaluate("Number(document.body.dataset.ready)"))
        if number == 4:
            looking.roof("standAt('bare')")
            x, y = looking.probe("place('E1-2', 0)")
            tap = taken(looking, f"probe.tapped({x}, {y})")
        context.close()
    size, soon = len(text) / 1e6, statistics.median(ready)
    print(f"\npage of forty pieces, {size:.1f} MB: ready after {soon:.0f} ms, tap {tap:.1f} ms")


def test_four_hundred_pieces(chromium: Browser, tmp_path: Path) -> None:
    looking = long_store(chromium, tmp_path)
    print()
    for name, (words, before) in TASKS.items():
        print(f"page of four hundred pieces: {name} {taken(looking, words, before):.1f} ms")
