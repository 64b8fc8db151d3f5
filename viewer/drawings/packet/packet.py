"""The packet: everything that is carried to the site, in one document with contents and page numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from pathlib import Path

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import message
from trimwright.model.takeoff.record import Takeoff

from ...words.progress import Progress, nobody
from ...words.speaker import Speaker
from ..ink.drawing import Drawing
from ..ink.pdf import pdf_of
from ..paper.page import Imprint, Paper, numbered, paper_for
from ..paper.pins import pins_of
from ..piece.batches import batches
from ..piece.cut_sheet import cut_sheet
from ..piece.template import templates
from ..roof.plan import plan
from ..run.elevation import elevation
from ..run.run_facts import facts_of
from .cover import ContentsEntry, contents, cover
from .findings_list import findings_list
from .lists import cutting_pages, piece_list, shopping_list
from .site_checklist import site_checklist
from .taped import taped


@dataclass(frozen=True, slots=True)
class Chapter:
    """A part of the packet.

    Attributes:
        title: What it is called.
        pages: At least one.
    """

    title: str
    pages: tuple[Drawing, ...]


@dataclass(frozen=True, slots=True)
class Packet:
    """The whole document.

    Attributes:
        title: Of the document.
        pages: Every page with its number.
        chapters: What begins at which page, counted from 0.
    """

    title: str
    pages: tuple[Drawing, ...]
    chapters: dict[int, str]


def bind(
    layout: Layout,
    findings: Sequence[Finding],
    takeoff: Takeoff,
    imprint: Imprint,
    paper: Paper | None = None,
    picture: Path | None = None,
    tell: Progress = nobody,
) -> Packet:
    """Return the packet of a layout.

    Args:
        layout: The layout.
        findings: What is wrong with it.
        takeoff: What to buy for it.
        imprint: What every page says.
        paper: Its size; when left out, that which goes with the lengths of the scene.
        picture: PNG file of the finished roof for the cover; None leaves it out.
        tell: Told about every chapter and every cut sheet.

    Raises:
        OSError: The picture cannot be read.
    """
    paper = paper or paper_for(layout.scene.tape)
    say, alike = imprint.say, batches(layout)
    total = len(alike) + 3
    tell(message("plan and elevations"), 1, total)
    first = _first_chapters(layout, findings, paper, imprint)
    sheets: list[Drawing] = []
    places: dict[str, int] = {}  # where the sheet of each piece begins among them
    for number, batch in enumerate(alike, 2):
        tell(message("cut sheet {mark}", mark=batch.first.mark), number, total)
        places |= dict.fromkeys(batch.marks, len(sheets))
        sheets += cut_sheet(batch, layout, paper, imprint)
    tell(message("templates"), total - 1, total)
    full_size = Chapter(say("Full-size templates"), tuple(templates(layout, paper, imprint)))
    tell(message("lists"), total, total)
    bought = _bought(layout, takeoff, paper, imprint)
    cut_sheets = Chapter(say("Cut sheets"), tuple(sheets))
    front = cover(layout, findings, picture, paper, imprint)

    def bound(begin: int) -> Packet:
        """Return the packet when the cut sheets begin at page ``begin``."""
        marks = {mark: begin + place for mark, place in places.items()}
        pieces = Chapter(say("Piece list"), tuple(piece_list(layout, marks, paper, imprint)))
        chapters = [*first, cut_sheets, full_size, pieces, *bought]
        return _bound(layout.scene.title, front, [c for c in chapters if c.pages], paper, imprint)

    starts = bound(1).chapters
    return bound(next((page + 1 for page, title in starts.items() if title == cut_sheets.title), 1))


def _first_chapters(
    layout: Layout, findings: Sequence[Finding], paper: Paper, imprint: Imprint
) -> list[Chapter]:
    """Return what is read before anything is cut."""
    say, pins = imprint.say, pins_of(findings)
    runs = (elevation(facts_of(layout, run, pins), paper, imprint) for run in layout.runs)
    return [
        Chapter(say("Before trim goes on"), tuple(site_checklist(layout, paper, imprint))),
        Chapter(say("What was taped"), tuple(taped(layout, paper, imprint))),
        Chapter(say("Findings"), tuple(findings_list(layout, findings, paper, imprint))),
        Chapter(say("Roof plan and key"), plan(layout, findings, paper, imprint)),
        Chapter(say("Run elevations"), tuple(chain.from_iterable(runs))),
    ]


def _bought(layout: Layout, takeoff: Takeoff, paper: Paper, imprint: Imprint) -> list[Chapter]:
    """Return what is bought by."""
    say = imprint.say
    return [
        Chapter(say("Shopping list"), tuple(shopping_list(layout, takeoff, paper, imprint))),
        Chapter(say("Cutting diagram"), tuple(cutting_pages(takeoff, paper, imprint))),
    ]


def packet_pdf(packet: Packet, say: Speaker) -> bytes:
    """Return a packet as a PDF.

    Raises:
        OSError: The cover's picture cannot be read.
    """
    subject = say("Trim packet: plan, elevations, cut sheets, templates, lists and findings")
    return pdf_of(
        packet.pages,
        packet.title,
        subject=subject,
        chapters=packet.chapters,
        language=say.language.code,
    )


def _bound(title: str, front: Drawing, chapters: Sequence[Chapter], paper: Paper, imprint: Imprint) -> Packet:
    """Return the chapters behind the cover and their contents, every page numbered."""
    count = len(contents(_entries(chapters, 0), paper, imprint))
    listed = contents(_entries(chapters, 1 + count), paper, imprint)
    pages = [front, *listed, *chain.from_iterable(chapter.pages for chapter in chapters)]
    starts = {0: title, 1: imprint.say("Contents")}
    at = 1 + count
    for chapter in chapters:
        starts[at] = chapter.title
        at += len(chapter.pages)
    return Packet(
        title,
        tuple(numbered(page, number, len(pages), imprint.say) for number, page in enumerate(pages, 1)),
        starts,
    )


def _entries(chapters: Sequence[Chapter], before: int) -> list[ContentsEntry]:
    """Return the lines of the contents; ``before`` pages come first."""
    entries: list[ContentsEntry] = []
    page = before + 1
    for chapter in chapters:
        entries.append(ContentsEntry(chapter.title, page, True))
        entries += [
            ContentsEntry(drawing.title, page + number, False)
            for number, drawing in enumerate(chapter.pages)
            if not drawing.follows and drawing.title != chapter.title
        ]
        page += len(chapter.pages)
    return entries
