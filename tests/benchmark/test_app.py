"""How soon the app shows a change of a house of forty pieces, and what it weighs after two hundred.

Nothing here asserts a time. Run with ``pytest -m benchmark -s``.
"""

import statistics
import time
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.benchmark.house import HOUSE
from tests.viewer.app.live import Looking, Server

pytestmark = pytest.mark.benchmark

TIMED = """() => new Promise((seen) => {
  const place = document.querySelector(".tw-workspace");
  let start;
  addEventListener("keydown", () => (start = performance.now()), { capture: true, once: true });
  new MutationObserver((_, watch) => {
    watch.disconnect();
    requestAnimationFrame(() => requestAnimationFrame(() => seen(performance.now() - start))); // its picture is done
  }).observe(place, { attributeFilter: ["data-seen"] });
})"""
"""Milliseconds from the Enter key to the picture of the changed roof."""

REST = 1.5
"""Seconds between two changes that are timed: nobody is quicker at a form."""


def test_a_change_is_seen_soon_and_two_hundred_weigh_little(chromium: Browser, tmp_path: Path) -> None:
    (tmp_path / "house.toml").write_text(HOUSE)
    with Server(tmp_path) as server:
        page = chromium.new_page(viewport={"width": 1280, "height": 800}, reduced_motion="reduce")
        one = Looking(page, server.url).afresh()
        one.open_scene("house")
        pieces = one.ask("workspace.roof.view.pieces.size")
        taken = []
        for number in range(20):
            one.page.evaluate(f"void (window.timed = ({TIMED})())")
            one.write(f"{86 + number % 10 / 10:g} ft", "roof", "length")
            taken.append(float(one.page.evaluate("window.timed")))
            time.sleep(REST)
        for number in range(180):
            one.write(f"{86 + number % 10 / 10:g} ft", "roof", "length")
        page.close()
        print(f"\n{pieces} pieces: a change is seen after {statistics.median(taken):.0f} ms (median of 20)")
        print(f"after 200 changes the server takes {server.memory():.0f} MB")
        assert server.memory() < 220
