"""Chapters that follow each other down the pages: one begins where the one before it ends, if there is room."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..ink.drawing import Drawing, Item, Stroke, Words, moved
from ..ink.letters import width_of
from ..ink.style import BODY, INK, SOFT, TITLE
from .flow import Block, groups_of, high
from .page import Imprint, Room, body_of, framed
from .sizes import Paper

HEAD = 0.52
"""Height of a chapter's head within a page, inches."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """A part of a document.

    Attributes:
        title: What it is called.
        blocks: What is in it.
        aside: At its head, right.
        apart: It begins a page.
    """

    title: str
    blocks: tuple[Block, ...]
    aside: str = ""
    apart: bool = False


@dataclass(frozen=True, slots=True)
class Chaptered:
    """Pages, and where chapters begin on them.

    Attributes:
        pages: Every page, with head and foot.
        begins: Titles and the index of the page that each begins on.
        names: Names of blocks and the index of the page that each is on.
        left: Height left on the last page under the head of another chapter, inches.
    """

    pages: tuple[Drawing, ...]
    begins: tuple[tuple[str, int], ...]
    names: tuple[tuple[str, int], ...]
    left: float


class _Pages:
    """Pages that are being filled."""

    def __init__(self, box: Room, paper: Paper, imprint: Imprint) -> None:
        self.box, self.paper, self.imprint = box, paper, imprint
        self.done: list[Drawing] = []
        self.begins: list[tuple[str, int]] = []
        self.names: list[tuple[str, int]] = []
        self.items: tuple[Item, ...] = ()
        self.y = box.top
        self.head = ("", "", False)  # title and aside of the page, and whether it goes on with the one before

    def turn(self, head: tuple[str, str, bool]) -> None:
        """Begin a page, if the one at hand has anything on it."""
        if self.items:
            title, aside, further = self.head
            if further:
                title = self.imprint.say("{title}, continued", title=title)
            self.done.append(framed(title, self.items, self.paper, self.imprint, aside))
        self.items, self.y, self.head = (), self.box.top, head

    def put(self, block: Block) -> None:
        """Put a block under what is there."""
        self.items += moved(block.items, (self.box.left, self.y))
        self.y -= block.height
        if block.name:
            self.names.append((block.name, len(self.done)))


def chaptered(chapters: Iterable[Chapter], paper: Paper, imprint: Imprint) -> Chaptered:
    """Return chapters on pages, those that are short several to a page.

    Args:
        chapters: In their order; empty ones are left out.
        paper: Size of the pages.
        imprint: What every page says.
    """
    pages = _Pages(body_of(paper, imprint), paper, imprint)
    for chapter in chapters:
        if chapter.blocks:
            _put(pages, chapter)
    left = pages.y - pages.box.low - HEAD
    pages.turn(("", "", False))
    return Chaptered(tuple(pages.done), tuple(pages.begins), tuple(pages.names), left)


def _put(pages: _Pages, chapter: Chapter) -> None:
    """Put one chapter on pages, under what the last of them has."""
    box = pages.box
    opening = True
    for group in groups_of(chapter.blocks, box.height):
        white = not any(block.items for block in group)
        fits = pages.y - box.low - high(group) >= (HEAD if opening else 0.0) - 1e-9
        if opening and (chapter.apart or not pages.items or not fits):
            pages.turn((chapter.title, chapter.aside, False))
        elif opening:
            pages.put(_head(chapter, box.width))
        elif not fits:
            if white:
                pages.y = box.low
                continue
            pages.turn((chapter.title, chapter.aside, group[0].head is not None))
            if group[0].head is not None:
                pages.put(group[0].head)
        if opening:
            pages.begins.append((chapter.title, len(pages.done)))
        opening = False
        if white and not pages.items:
            continue
        for block in group:
            pages.put(block)


def _head(chapter: Chapter, width: float) -> Block:
    """Return the head of a chapter that begins within a page."""
    size, base = TITLE * 0.8, -0.34
    room = width - (width_of(chapter.aside, BODY) + 0.25 if chapter.aside else 0.0)
    size = min(size, size * room / max(width_of(chapter.title, size, bold=True), 1e-9))
    items: list[Item] = [
        Words(chapter.title, (0.0, base), size, bold=True, color=INK, name="chapter"),
        Stroke(((0.0, base - 0.09), (width, base - 0.09)), 0.016, INK, name="rule"),
    ]
    if chapter.aside:
        items.append(Words(chapter.aside, (width, base), BODY, "end", color=SOFT, name="aside"))
    return Block(HEAD, tuple(items))
