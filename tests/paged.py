"""Blocks on pages, for tests that look at a part of the packet by itself."""

from __future__ import annotations

from collections.abc import Iterable

from trimwright.model.layout import Layout
from trimwright.viewer.drawings.ink.drawing import Drawing, Words
from trimwright.viewer.drawings.paper.chapters import Chapter, chaptered
from trimwright.viewer.drawings.paper.flow import Block
from trimwright.viewer.drawings.paper.page import Room, body_of, imprint_of
from trimwright.viewer.drawings.paper.sizes import Paper

DATE = "2026-11-20"


def box_of(layout: Layout, paper: Paper = "letter") -> Room:
    """Return what a page leaves for its blocks."""
    return body_of(paper, imprint_of(layout.scene, DATE))


def paged(
    layout: Layout, blocks: Iterable[Block], paper: Paper = "letter", title: str = "Part"
) -> tuple[Drawing, ...]:
    """Return blocks on as many pages as they take, each with head and foot."""
    return chaptered([Chapter(title, tuple(blocks))], paper, imprint_of(layout.scene, DATE)).pages


def said(pages: Iterable[Drawing]) -> str:
    """Return all the text of some pages, lines that were broken joined again."""
    words = [item.text for page in pages for item in page.items if isinstance(item, Words)]
    return " ".join(" ".join(words).replace("\N{NO-BREAK SPACE}", " ").split())
