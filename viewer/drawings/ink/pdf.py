"""Write drawings as the pages of one PDF, at their true size, with an outline to find them by."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from .drawing import Area, Drawing, Item, Picture, Point, Stroke, Words
from .letters import BOLD, REGULAR, plain
from .svg import POINTS


@dataclass(frozen=True, slots=True)
class Heading:
    """A line of a document's outline, and of its contents.

    Attributes:
        title: What begins there.
        page: Index of its page, from 0.
        level: 0 for a chapter, 1 for what is in one.
    """

    title: str
    page: int
    level: int = 0


def pdf_of(
    pages: Sequence[Drawing],
    title: str,
    *,
    subject: str = "",
    outline: Sequence[Heading] = (),
    language: str = "en",
) -> bytes:
    """Return a PDF with one page for each drawing; the same drawings give the same bytes.

    Args:
        pages: The drawings, in order.
        title: Of the document.
        subject: What it is about.
        outline: What it is leafed by; the titles of its pages where it is empty.
        language: Of its text, for those who have it read to them.

    Raises:
        ValueError: There is no page.
        OSError: A picture cannot be read.
    """
    if not pages:
        raise ValueError("a document needs at least one page")
    buffer = io.BytesIO()
    canvas = Canvas(buffer, invariant=1, pageCompression=1, lang=language)
    canvas.setTitle(title)
    canvas.setAuthor("")
    canvas.setSubject(subject)
    canvas.setCreator("trimwright")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    canvas.showOutline()
    outline = outline or [Heading(page.title, number) for number, page in enumerate(pages)]
    for number, page in enumerate(pages):
        canvas.setPageSize((page.size[0] * POINTS, page.size[1] * POINTS))
        for place, entry in enumerate(outline):
            if entry.page == number:
                canvas.bookmarkPage(f"entry-{place}", fit="Fit")
                canvas.addOutlineEntry(plain(entry.title), f"entry-{place}", entry.level, closed=False)
        canvas.setLineCap(1)
        canvas.setLineJoin(1)
        for item in page.items:
            _draw(canvas, item)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _draw(canvas: Canvas, item: Item) -> None:
    match item:
        case Stroke():
            canvas.setStrokeColor(item.color)
            canvas.setLineWidth(item.width * POINTS)
            canvas.setDash([length * POINTS for length in item.dash])
            canvas.drawPath(_path(canvas, (item.points,), item.closed), stroke=1, fill=0)
        case Area():
            canvas.setFillColor(item.color)
            canvas.drawPath(_path(canvas, item.rings, True), stroke=0, fill=1, fillMode=0)
        case Words():
            _words(canvas, item)
        case Picture():
            canvas.drawImage(
                ImageReader(item.file),  # by its path alone it would be named after where it lies
                item.at[0] * POINTS,
                item.at[1] * POINTS,
                item.size[0] * POINTS,
                item.size[1] * POINTS,
            )


def _path(canvas: Canvas, lines: Sequence[Sequence[Point]], closed: bool):  # type: ignore[no-untyped-def]
    path = canvas.beginPath()
    for line in lines:
        path.moveTo(line[0][0] * POINTS, line[0][1] * POINTS)
        for x, y in line[1:]:
            path.lineTo(x * POINTS, y * POINTS)
        if closed:
            path.close()
    return path


def _words(canvas: Canvas, words: Words) -> None:
    canvas.saveState()
    canvas.translate(words.at[0] * POINTS, words.at[1] * POINTS)
    if words.angle:
        canvas.rotate(words.angle)
    canvas.setFont(BOLD if words.bold else REGULAR, words.size * POINTS)
    canvas.setFillColor(words.color)
    write = {"start": canvas.drawString, "middle": canvas.drawCentredString, "end": canvas.drawRightString}
    write[words.anchor](0, 0, plain(words.text))
    canvas.restoreState()
