"""The packet: everything that is carried to the site, in one document with contents and page numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import Expanse, message
from trimwright.model.takeoff.record import Takeoff

from ...report.words import totals
from ...words.progress import Progress, nobody
from ...words.speaker import Speaker
from ..ink.drawing import Drawing
from ..ink.pdf import Heading, pdf_of
from ..paper.chapters import Chapter, Chaptered, chaptered
from ..paper.page import Imprint, Room, body_of, numbered
from ..paper.sizes import Paper, paper_for
from ..piece.end_kinds import EndKind
from ..piece.end_sheets import EndSheets, end_sheets, kind_title
from ..piece.template import templates
from ..roof.plan import plan
from ..run.elevation import elevations
from .bend_list import bend_list
from .cover import cover
from .crew_page import crew_page
from .cutting_diagram import diagram_blocks
from .findings_list import findings_list
from .labels import labels
from .lists import bought, piece_list, shopping_list, wasted
from .site_checklist import site_checklist
from .taped import taped

STEPS = 4
"""Steps of the work that are told."""


@dataclass(frozen=True, slots=True)
class Packet:
    """The whole document.

    Attributes:
        title: Of the document.
        pages: Every page with its number.
        outline: What begins where.
        kinds: The kinds of ends, by the letters of their sheets.
    """

    title: str
    pages: tuple[Drawing, ...]
    outline: tuple[Heading, ...]
    kinds: tuple[EndKind, ...]


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
        tell: Told about every chapter.

    Raises:
        OSError: The picture cannot be read.
        ValueError: The picture is no PNG file.
    """
    paper = paper or paper_for(layout.scene.tape)
    title, box = layout.scene.title, body_of(paper, imprint)
    tell(message("plan and elevations"), 1, STEPS)
    before = list(_before_the_ends(layout, findings, box, imprint.say))
    tell(message("ends"), 2, STEPS)
    ends = end_sheets(layout, box, chaptered(before, paper, imprint).left, imprint.say)
    after = _from_the_ends_on(layout, ends, takeoff, box, imprint.say, tell)
    body = chaptered([*before, *after], paper, imprint)
    listed = _listed(ends.kinds, body, imprint.say)

    def front(before: int) -> tuple[Drawing, ...]:
        """Return the cover, when it takes ``before`` pages."""
        shifted = [replace(entry, page=entry.page + before) for entry in listed]
        blocks = tuple(cover(layout, findings, picture, shifted, box, imprint.say))
        return chaptered([Chapter(title, blocks, imprint.say("Trim packet"))], paper, imprint).pages

    first = front(len(front(1)))
    pages = [*first, *body.pages]
    return Packet(
        title,
        tuple(numbered(page, number, len(pages), imprint.say) for number, page in enumerate(pages, 1)),
        (Heading(title, 0), *(replace(entry, page=entry.page + len(first)) for entry in listed)),
        ends.kinds,
    )


def _listed(kinds: Sequence[EndKind], body: Chaptered, say: Speaker) -> list[Heading]:
    """Return the chapters, and under the ends each kind of them, by the page on which it begins."""
    titles = {kind.code: kind_title(kind, say) for kind in kinds if kind.code}
    first: dict[str, int] = {}
    for code, index in body.names:
        first.setdefault(code, index)
    entries: list[Heading] = []
    for title, index in body.begins:
        entries.append(Heading(title, index))
        if title == say("Ends"):
            entries += [
                Heading(say("{code}: {kind}", code=code, kind=titles[code]), page, 1)
                for code, page in first.items()
            ]
    return entries


def _before_the_ends(
    layout: Layout, findings: Sequence[Finding], box: Room, say: Speaker
) -> Iterator[Chapter]:
    """Yield what is bound between the cover and the ends, in the order in which it is read."""
    width = box.width
    yield Chapter(say("Crew page"), tuple(crew_page(layout, width, say)), apart=True)
    yield Chapter(
        say("Before trim goes on"),
        tuple(site_checklist(layout, box, say)),
        say("Tick, date and sign"),
        apart=True,
    )
    if findings:
        yield Chapter(
            say("Findings"), tuple(findings_list(layout, findings, width, say)), say(totals(findings))
        )
    if layout.survey is not None:
        measures = say.counted("{count} measure", "{count} measures", count=len(layout.survey.tapes))
        yield Chapter(say("What was taped"), tuple(taped(layout, layout.survey, width, say)), measures)
    area = say("{area} of deck", area=Expanse(sum(face.area for face in layout.roof.faces)))
    yield Chapter(say("Roof plan and key"), tuple(plan(layout, findings, box, say)), area, apart=True)
    yield Chapter(say("Run elevations"), tuple(elevations(layout, findings, width, say)))


def _from_the_ends_on(
    layout: Layout, ends: EndSheets, takeoff: Takeoff, box: Room, say: Speaker, tell: Progress
) -> Iterator[Chapter]:
    """Yield the ends and what is bound behind them, in the order in which it is read."""
    width = box.width
    yield Chapter(say("Ends"), ends.blocks)
    tell(message("lists"), 3, STEPS)
    count = say.counted("{count} piece", "{count} pieces", count=len(layout.parts))
    yield Chapter(say("Piece list"), tuple(piece_list(layout, ends.kinds, width, say)), count)
    yield Chapter(say("Bend list"), tuple(bend_list(layout, takeoff, width, say)))
    yield Chapter(
        say("Shopping list"), tuple(shopping_list(layout, takeoff, width, say)), bought(takeoff, say)
    )
    yield Chapter(
        say("Cutting diagram"), tuple(diagram_blocks(takeoff, say, width, True)), wasted(takeoff, say)
    )
    tell(message("templates"), 4, STEPS)
    yield Chapter(say("Full-size templates"), tuple(templates(ends.kinds, box, say)))
    yield Chapter(say("Labels"), tuple(labels(layout, width, say)), count, apart=True)


def packet_pdf(packet: Packet, say: Speaker) -> bytes:
    """Return a packet as a PDF.

    Raises:
        OSError: The cover's picture cannot be read.
    """
    subject = say("Trim packet: crew page, plan, elevations, ends, templates, lists and labels")
    return pdf_of(
        packet.pages,
        packet.title,
        subject=subject,
        outline=packet.outline,
        language=say.language.code,
    )
