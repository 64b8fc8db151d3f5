"""What a bench hands out as a file: page, packet, lists, and the scene itself."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

from ..buy.lists import lists_of
from ..buy.spreadsheets import xlsx_of
from ..drawings.leaf import Imprint
from ..drawings.packet import bind, write_packet
from ..page.page import page_of
from ..report.piece_list import piece_list
from .answer import Answer

Maker = Callable[[Answer], bytes]


def page(answer: Answer) -> bytes:
    """Return the page: one HTML file that opens offline."""
    return page_of(answer.layout, answer.findings).encode("utf-8")


def packet(answer: Answer) -> bytes:
    """Return the packet for the site, as PDF."""
    imprint = Imprint(answer.layout.scene.title, date.today().isoformat())
    bound = bind(answer.layout, answer.findings, answer.takeoff, imprint)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "packet.pdf")
        write_packet(bound, path)
        return path.read_bytes()


def shopping(answer: Answer) -> bytes:
    """Return what to buy, as a workbook with one sheet for each list."""
    layout = answer.layout
    title = f"{layout.scene.title}: what to buy"
    return xlsx_of(lists_of(layout, answer.takeoff), title, layout.scene.tape)


def pieces(answer: Answer) -> bytes:
    """Return the list of pieces, as CSV."""
    return piece_list(answer.layout).encode("utf-8")


FILES: Mapping[str, tuple[Maker, str]] = {
    "page.html": (page, "text/html"),
    "packet.pdf": (packet, "application/pdf"),
    "what-to-buy.xlsx": (shopping, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
    "pieces.csv": (pieces, "text/csv"),
}
"""Makers and kinds of what can be had, by the end of its name."""
