"""A page in a browser, as a test looks at it: what is said to it, where it is tapped, what is read on it."""

import base64
import gzip
import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page

from tests.zoo import layout
from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.page.page import page_of

PROBES = Path(__file__).with_name("probes.js")


LONG_STORE = """
title = "Long store"
[roof]
form = "hip"
length = "400'"
width = "60'"
pitch = "6/12"
overhang = { eave = "12 in" }
[metal]
stock = ["4'"]
[screws]
spacing = "5 in"
first = "3 in"
ends = ["3 in", "6 in"]
"""
"""A roof of some four hundred pieces and five thousand screws."""


def page_from(text: str) -> str:
    """The page of a scene's text."""
    layout = build(scene_from(text))
    return page_of(layout, check(layout))


@cache
def text_of(name: str) -> str:
    """The page of a scene of the zoo."""
    return page_of(layout(name), check(layout(name)))


def unpacked(page: str) -> dict[str, Any]:
    """The scripts and the data that lie in a page."""
    found = re.search(r'id="packed"[^>]*>([^<]*)<', page)
    assert found
    return dict(json.loads(gzip.decompress(base64.b64decode(found[1]))))


class Looking:
    """A page that is open, and what came of it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.asked: set[str] = set()
        self.problems: list[str] = []
        page.add_init_script(path=PROBES)
        page.on("request", lambda request: self.asked.add(request.url.split(":")[0]))
        page.on("pageerror", lambda error: self.problems.append(str(error)))
        page.on("console", lambda line: line.type == "error" and self.problems.append(line.text))

    @property
    def touch(self) -> bool:
        """Whether it is tapped with a finger."""
        return bool(self.page.evaluate("navigator.maxTouchPoints") > 0)

    def afresh(self) -> "Looking":
        """Put everything back to how the page opened."""
        self.page.bring_to_front()
        self.probe("afresh()")
        return self

    def roof(self, words: str) -> Any:
        """Say something to the roof on the page."""
        return self.page.evaluate(f"document.getElementById('roof').roof.{words}")

    def probe(self, words: str) -> Any:
        """Ask the page something."""
        return self.page.evaluate(f"probe.{words}")

    def tap(self, mark: str, share: float = 0.0) -> None:
        """Tap a piece where it is seen, ``share`` of its length off its middle."""
        self.tap_at(*self.probe(f"place('{mark}', {share})"))

    def tap_at(self, x: float, y: float) -> None:
        """Tap a place of the screen."""
        taps = self.probe("taps")
        (self.page.touchscreen.tap if self.touch else self.page.mouse.click)(x, y)
        self.probe(f"lifted({taps})")

    def settle(self) -> None:
        """Wait until all that changed is drawn, and all that is written over it has its place."""
        self.probe("settled()")

    def sheet(self) -> str:
        """What is read on the sheet."""
        return self.page.inner_text(".tw-sheet")


def opened(context: BrowserContext, text: str, file: Path) -> Looking:
    """Open a page from a file."""
    file.write_text(text, encoding="utf-8")
    looking = Looking(context.new_page())
    looking.page.goto(file.as_uri())
    looking.page.wait_for_selector("body[data-ready]", state="attached")
    return looking


def long_store(browser: Browser, folder: Path) -> Looking:
    """Open the page of the long store."""
    context = browser.new_context(viewport={"width": 1280, "height": 800}, reduced_motion="reduce")
    return opened(context, page_from(LONG_STORE), folder / "roof.html")
