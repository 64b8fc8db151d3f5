"""Chapters that follow each other down the pages: one begins where the one before it ends, if there is room."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..ink.drawing import Drawing, Item, Stroke, Words, moved
from ..ink.letters import width_of
from ..ink.style import BODY, INK, SOFT, TITLE
from .flow import Block, groups_of
from .page import Imprint, Paper, Room, body_of, framed

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
        loose: What stays together in it may be put before what does not fit the page any more.
    """

    title: str
    blocks: tuple[Block, ...]
    aside: str = ""
    apart: bool = False
    loose: bool = False


@dataclass(frozen=True, slots=True)
class Chaptered:
    """Pages, and where chapters begin on them.

    Attributes:
        pages: Every page, with head and foot.
        begins: Titles and the index of the page that each begins on.
        names: Names of blocks and the index of the page that each is on.
    """

    pages: tuple[Drawing, ...]
    begins: tuple[tuple[str, int], ...]
    names: tuple[tuple[str, int], ...]


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
    pages.turn(("", "", False))
    return Chaptered(tuple(pages.done), tuple(pages.begins), tuple(pages.names))


def _put(pages: _Pages, chapter: Chapter) -> None:
    """Put one chapter on pages, under what the last of them has."""
    box = pages.box
    waiting = list(groups_of(chapter.blocks, box.height))
    opening = True
    while waiting:
        group = waiting.pop(0 if opening or not chapter.loose else _next(waiting, pages.y - box.low))
        height = _height(group)
        white = not any(block.items for block in group)
        room = pages.y - box.low - height - (HEAD if opening else 0.0)
        fits = room >= (_least(waiting, room) if opening and chapter.loose else 0.0) - 1e-9
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


def _next(waiting: Sequence[Sequence[Block]], room: float) -> int:
    """Return which of the groups that wait comes next: the first, or the highest that fits where the first does not.

    What goes on from another, under a head that it repeats, stays behind it.
    """
    if waiting[0][0].head is not None or _height(waiting[0]) <= room + 1e-9:
        return 0
    whole = [
        k
        for k, group in enumerate(waiting)
        if group[0].head is None and not (k + 1 < len(waiting) and waiting[k + 1][0].head is not None)
    ]
    fitting = [k for k in whole if _height(waiting[k]) <= room + 1e-9]
    return max(fitting, key=lambda k: (_height(waiting[k]), -k), default=0)


def _least(waiting: Sequence[Sequence[Block]], room: float) -> float:
    """Return the height of what comes next in ``room``, without which the words over all of it stand alone."""
    return _height(waiting[_next(waiting, room)]) if waiting else 0.0


def _height(group: Sequence[Block]) -> float:
    return sum(block.height for block in group)


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
