"""How each output is made: a function yields the names of its files and what is in them.

Each imports what it is made with when it is asked for: a picture does not wait for what writes PDF files.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, TypeAlias

from ..words.progress import Progress
from ..words.speaker import speaker_of

if TYPE_CHECKING:
    from trimwright.model.layout import Layout

    from ..data.pattern_lines import Unit
    from .work import Work

Files = Iterable[tuple[str, bytes]]
"""Names of files and what is in them."""

Maker: TypeAlias = "Callable[[Work, Progress], Files]"


def report(work: Work, _: Progress) -> Files:
    """Yield the report."""
    from ..data.report import report_of, written

    yield "report.json", written(report_of(work.layout, work.findings, work.takeoff)).encode("utf-8")


def pieces(work: Work, _: Progress) -> Files:
    """Yield the piece list."""
    from ..data.pieces_csv import piece_list

    yield "pieces.csv", piece_list(work.layout).encode("utf-8")


def model(work: Work, _: Progress) -> Files:
    """Yield the 3D model."""
    from ..data.glb import glb_of

    yield "roof.glb", glb_of(work.stage, work.layout)


def pictures(work: Work, tell: Progress) -> Files:
    """Yield a picture of each view that is wanted."""
    from ..render.picture import pictures_of

    views = work.stage.album if work.views is None else work.views
    earlier = None if work.earlier is None else work.earlier / "pictures"
    for name, data in pictures_of(work.stage, views, tell, earlier=earlier):
        yield f"pictures/{name}", data


def page(work: Work, _: Progress) -> Files:
    """Yield the page."""
    from ..page.page import page_of

    yield "roof.html", page_of(work.layout, work.findings, work.stills).encode("utf-8")


def packet(work: Work, tell: Progress) -> Files:
    """Yield the packet."""
    from ..drawings.packet.packet import bind, packet_pdf
    from ..drawings.paper.page import imprint_of

    imprint = imprint_of(work.layout.scene, work.date)
    bound = bind(work.layout, work.findings, work.takeoff, imprint, work.paper, work.cover, tell)
    yield "packet.pdf", packet_pdf(bound, imprint.say)


def taping_form(work: Work, _: Progress) -> Files:
    """Yield the form to fill in on the roof."""
    from trimwright.model.roof.build import build_roof

    from ..drawings.paper.page import imprint_of
    from ..drawings.roof.taping_form import taping_form as form_of
    from ..drawings.roof.taping_form import taping_pdf

    scene = work.layout.scene
    imprint = imprint_of(scene, work.date)
    pages = form_of(build_roof(scene.roof), scene.accuracy, scene.roof.taped, imprint, work.paper)
    yield "what-to-tape.pdf", taping_pdf(pages, imprint)


def dxf_patterns(work: Work, _: Progress) -> Files:
    """Yield a DXF file for each piece."""
    from ..data.dxf import dxf_of

    say = speaker_of(work.layout.scene)
    for part in work.layout.parts:
        yield (
            f"patterns/{part.mark}.dxf",
            dxf_of(part, _unit(work.layout), work.layout.screws_of(part.mark), say).encode("utf-8"),
        )


def panel_patterns(work: Work, _: Progress) -> Files:
    """Yield a DXF file for each form of panel, closure and continuous cleat."""
    from ..data.dxf import text_of
    from ..data.panel_dxf import panel_document
    from ..data.panel_dxf import panel_patterns as patterns_of_panels

    say = speaker_of(work.layout.scene)
    for pattern in patterns_of_panels(work.layout):
        text = text_of(panel_document(pattern, _unit(work.layout), say))
        yield f"patterns/panels/{pattern.name}.dxf", text.encode("utf-8")


def svg_patterns(work: Work, _: Progress) -> Files:
    """Yield an SVG file for each piece."""
    from ..data.pattern_svg import pattern_svg

    say = speaker_of(work.layout.scene)
    for part in work.layout.parts:
        yield (
            f"patterns/{part.mark}.svg",
            pattern_svg(part, work.layout.screws_of(part.mark), say).encode("utf-8"),
        )


def lists(work: Work, _: Progress) -> Files:
    """Yield a CSV file for each list of what to buy."""
    from ..buy.lists import lists_of
    from ..data.spreadsheets import csv_of

    for each in lists_of(work.layout, work.takeoff):
        yield f"buy/{each.key}.csv", csv_of(each, speaker_of(work.layout.scene)).encode("utf-8")


def workbook(work: Work, _: Progress) -> Files:
    """Yield the workbook of all lists."""
    from ..buy.lists import lists_of
    from ..data.spreadsheets import xlsx_of

    say = speaker_of(work.layout.scene)
    title = say("{title}: what to buy", title=work.layout.scene.title)
    yield "buy/what-to-buy.xlsx", xlsx_of(lists_of(work.layout, work.takeoff), title, say)


def diagram_svg(work: Work, _: Progress) -> Files:
    """Yield the cutting diagram as a drawing."""
    from ..drawings.ink.svg import svg_of
    from ..drawings.packet.cutting_diagram import cutting_diagram

    scene = work.layout.scene
    yield (
        "buy/cutting-diagram.svg",
        svg_of(cutting_diagram(work.takeoff, scene.title, speaker_of(scene))).encode("utf-8"),
    )


def diagram_png(work: Work, _: Progress) -> Files:
    """Yield the cutting diagram as a picture."""
    from ..drawings.ink.png import png_of
    from ..drawings.packet.cutting_diagram import cutting_diagram

    scene = work.layout.scene
    yield "buy/cutting-diagram.png", png_of(cutting_diagram(work.takeoff, scene.title, speaker_of(scene)))


def nested_sheets(work: Work, _: Progress) -> Files:
    """Yield a DXF file for each length of stock."""
    from ..data.nested import nested

    for sheet in nested(work.layout, work.takeoff, _unit(work.layout)):
        yield f"buy/nested/{sheet.name}.dxf", sheet.text.encode("utf-8")


def _unit(layout: Layout) -> Unit:
    return "mm" if layout.scene.show == "mm" else "in"
