"""Write drawings as the pages of one PDF, at their true size, with an outline to find them by."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence

from reportlab.pdfgen.canvas import Canvas

from .drawing import Area, Drawing, Item, Picture, Point, Stroke, Words
from .letters import BOLD, REGULAR, plain
from .svg import POINTS


def pdf_of(
    pages: Sequence[Drawing],
    title: str,
    *,
    subject: str = "",
    chapters: Mapping[int, str] | None = None,
    language: str = "en",
) -> bytes:
    """Return a PDF with one page for each drawing; the same drawings give the same bytes.

    Args:
        pages: The drawings, in order; their titles make its outline.
        title: Of the document.
        subject: What it is about.
        chapters: Outline headings over the pages, by the number of the first page under each, from 0.
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
    under = 0
    for number, page in enumerate(pages):
        canvas.setPageSize((page.size[0] * POINTS, page.size[1] * POINTS))
        canvas.bookmarkPage(f"page-{number}", fit="Fit")
        if chapters and number in chapters:
            canvas.bookmarkPage(f"chapter-{number}", fit="Fit")
            canvas.addOutlineEntry(plain(chapters[number]), f"chapter-{number}", 0, closed=False)
            under = 1
        canvas.addOutlineEntry(plain(page.title), f"page-{number}", under)
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
                item.file,
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
