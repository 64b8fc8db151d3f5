"""The papers of a layout in a folder: packet, flat patterns, and what to buy."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.takeoff.record import Takeoff

from ..data.dxf import write_dxf
from ..data.pattern_svg import write_pattern
from ..data.traces import Unit
from ..drawings.packet.packet import Progress, bind, write_packet
from ..drawings.paper.page import Imprint, Paper
from .shopping import write_buy


def write_papers(
    layout: Layout,
    findings: Sequence[Finding],
    folder: Path,
    progress: Progress | None = None,
    *,
    takeoff: Takeoff,
    date: str = "",
    paper: Paper | None = None,
    picture: Path | None = None,
) -> None:
    """Write ``packet.pdf``, ``patterns/*.dxf``, ``patterns/*.svg`` and ``buy/*``.

    Args:
        layout: The layout.
        findings: What is wrong with it.
        folder: An existing folder.
        progress: Told what begins, its number from 1, and of how many.
        takeoff: What to buy for it.
        date: Of the scene's file, as the papers show it.
        paper: Size of the packet's pages; when left out, that which goes with the lengths of the scene.
        picture: PNG file of the finished roof for the cover.

    Raises:
        OSError: A file cannot be written, or the picture cannot be read.
    """
    imprint = Imprint(layout.scene.title, date)
    packet = bind(layout, findings, takeoff, imprint, paper, picture, progress)
    write_packet(packet, folder / "packet.pdf")
    patterns = folder / "patterns"
    patterns.mkdir(exist_ok=True)
    unit: Unit = "mm" if layout.scene.show == "mm" else "in"
    for part in layout.parts:
        screws = tuple(screw for screw in layout.screws if screw.mark == part.mark)
        write_dxf(part, patterns / f"{part.mark}.dxf", unit, screws)
        write_pattern(part, patterns / f"{part.mark}.svg", screws)
    buy = folder / "buy"
    buy.mkdir(exist_ok=True)
    write_buy(layout, takeoff, buy)
