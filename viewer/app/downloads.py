"""What a workspace hands out as a file: page, packet, lists, and the scene itself."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

from ..buy.lists import lists_of
from ..data.pieces_csv import piece_list
from ..data.spreadsheets import xlsx_of
from ..drawings.packet.packet import bind, write_packet
from ..drawings.paper.page import Imprint
from ..page.page import page_of
from .results import Result

Maker = Callable[[Result], bytes]


def page(result: Result) -> bytes:
    """Return the page: one HTML file that opens offline."""
    return page_of(result.layout, result.findings).encode("utf-8")


def packet(result: Result) -> bytes:
    """Return the packet for the site, as PDF."""
    imprint = Imprint(result.layout.scene.title, date.today().isoformat())
    bound = bind(result.layout, result.findings, result.takeoff, imprint)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "packet.pdf")
        write_packet(bound, path)
        return path.read_bytes()


def shopping(result: Result) -> bytes:
    """Return what to buy, as a workbook with one sheet for each list."""
    layout = result.layout
    title = f"{layout.scene.title}: what to buy"
    return xlsx_of(lists_of(layout, result.takeoff), title, layout.scene.tape)


def pieces(result: Result) -> bytes:
    """Return the list of pieces, as CSV."""
    return piece_list(result.layout).encode("utf-8")


FILES: Mapping[str, tuple[Maker, str]] = {
    "page.html": (page, "text/html"),
    "packet.pdf": (packet, "application/pdf"),
    "what-to-buy.xlsx": (shopping, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
    "pieces.csv": (pieces, "text/csv"),
}
"""Makers and kinds of what can be had, by the end of its name."""
