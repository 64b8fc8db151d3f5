"""The cover and the contents of a packet."""

from __future__ import annotations

import struct
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout

from ...report.short import short_pieces
from ...report.words import totals
from ..ink.drawing import Area, Drawing, Item, Picture, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines, rectangle
from ..ink.style import BODY, FAINT, INK, LARGE, LINE, SMALL, SOFT, WASH
from ..paper.flow import Block, flow, space
from ..paper.page import Imprint, Paper, body_of, framed
from ..roof.plan_labels import area_of

MOST = 8
"""Short pieces that the cover names."""

TALLEST = 4.7
"""Of the picture, inches on the paper."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the contents.

    Attributes:
        title: What is there.
        page: Its page number, from 1.
        chapter: It begins a part of the packet.
    """

    title: str
    page: int
    chapter: bool


def cover(
    layout: Layout, findings: Sequence[Finding], picture: Path | None, paper: Paper, imprint: Imprint
) -> Drawing:
    """Return the cover.

    Args:
        layout: The layout.
        findings: What is wrong with it.
        picture: PNG file of the finished roof; None when there is none.
        paper: Its size.
        imprint: What every leaf says.

    Raises:
        OSError: The picture cannot be read.
        ValueError: The picture is no PNG file.
    """
    box = body_of(paper)
    pages = flow(_cover_blocks(layout, findings, picture, box.width), box)
    return framed(layout.scene.title, pages[0], paper, imprint, "Trim packet")


def contents(entries: Sequence[Entry], paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return the contents, on as many leaves as they take."""
    box = body_of(paper)
    pages = flow((_entry(entry, box.width) for entry in entries), box)
    return [
        framed("Contents" if number == 1 else "Contents, continued", items, paper, imprint)
        for number, items in enumerate(pages, 1)
    ]


def _entry(entry: Entry, width: float) -> Block:
    size = BODY if entry.chapter else 8.5 / 72
    left = 0.0 if entry.chapter else 0.25
    above = 0.06 if entry.chapter else 0.0
    height = size * 1.38 + above
    base = -height + size * 0.3
    number = str(entry.page)
    items: list[Item] = [
        Words(entry.title, (left, base), size, bold=entry.chapter, color=INK, name="entry"),
        Words(number, (width, base), size, "end", bold=entry.chapter, color=INK, name="entry page"),
    ]
    start = left + width_of(entry.title, size, bold=entry.chapter) + 0.1
    end = width - width_of(number, size, bold=entry.chapter) - 0.1
    if end > start:
        items.append(Stroke(((start, base + 0.02), (end, base + 0.02)), 0.008, FAINT, (0.005, 0.05)))
    return Block(height, tuple(items))


def _cover_blocks(
    layout: Layout, findings: Sequence[Finding], picture: Path | None, width: float
) -> Iterator[Block]:
    if picture is not None:
        yield _picture(picture, width, layout.scene.title)
        yield space(0.14)
    yield _facts(layout, findings, width)
    errors = [finding for finding in findings if finding.severity == "error"]
    if errors:
        yield space(0.1)
        yield _warning(errors, width)


def _picture(picture: Path, width: float, title: str) -> Block:
    wide, high = _png_size(picture)
    scale = min(width / wide, TALLEST / high)
    size = (wide * scale, high * scale)
    corner = ((width - size[0]) / 2, -size[1])
    says = f"{title}: the finished roof"
    frame = rectangle(corner[0], corner[1], corner[0] + size[0], 0.0)
    return Block(
        size[1],
        (Picture(str(picture), corner, size, says), Stroke(frame, 0.008, SOFT, closed=True, name="frame")),
    )


def _png_size(picture: Path) -> tuple[int, int]:
    """Return the width and height of a PNG file in pixels, from its header."""
    with picture.open("rb") as file:
        header = file.read(24)
    if header[:8] != b"\x89PNG\r\n\x1a\n" or len(header) < 24:
        raise ValueError(f"{picture.name} is no PNG picture")
    wide, high = struct.unpack(">II", header[16:24])
    return int(wide), int(high)


def _facts(layout: Layout, findings: Sequence[Finding], width: float) -> Block:
    """Return what the packet is about, in two columns."""
    half = width / 2 - 0.15
    left = _column(_roof_facts(layout), 0.0, half)
    right = _column(_trim_facts(layout, findings), half + 0.3, half)
    x = half + 0.15
    height = max(left.height, right.height)
    swatches = _swatches(layout, -height - 0.06)
    line = Stroke(((x, -0.05), (x, -height)), 0.006, FAINT, name="rule")
    return Block(height + 0.36, (*left.items, *right.items, line, *swatches))


def _column(facts: Sequence[tuple[str, str]], x: float, width: float) -> Block:
    items: list[Item] = []
    y = 0.0
    for name, text in facts:
        items.append(Words(name, (x, y - SMALL), SMALL, bold=True, color=SOFT, name="fact"))
        texts = wrapped(text, BODY, width - 0.95)
        items += lines(texts, (x + 0.95, y + 0.01), BODY)
        y -= BODY * LINE * len(texts) + 0.06
    return Block(-y, tuple(items))


def _roof_facts(layout: Layout) -> list[tuple[str, str]]:
    show, roof = layout.scene.tape, layout.scene.roof
    pitches = ", ".join(dict.fromkeys(layout.scene.tape.pitch(face.slope) for face in layout.roof.faces))
    area = area_of(sum(face.area for face in layout.roof.faces), layout)
    return [
        ("Roof", f"{roof.form}, {show(roof.length)} by {show(roof.width)} over the walls"),
        ("Pitch", pitches),
        ("Deck", f"{area} in {len(layout.roof.faces)} faces"),
        ("Panels", f"{len(layout.panels)}, seams every {show(layout.scene.panels.cover)}"),
        ("Metal", f"{layout.scene.metal.kind}, {show.fine(layout.scene.metal.thickness)} thick"),
        ("Rules", layout.limits.name),
    ]


def _trim_facts(layout: Layout, findings: Sequence[Finding]) -> list[tuple[str, str]]:
    show = layout.scene.tape
    short = [f"{one.mark}, {show(one.length)}: {one.spot.name} of {one.run}" for one in short_pieces(layout)]
    told = [*short[:MOST], f"and {len(short) - MOST} more"] if len(short) > MOST + 1 else short or ["none"]
    return [
        ("Trim", f"{len(layout.parts)} pieces in {len(layout.runs)} runs"),
        ("Screws", f"{len(layout.screws)}, {layout.scene.screws.kind}"),
        ("Findings", str(totals(findings))),
        *(("" if place else "Short pieces", line) for place, line in enumerate(told)),
    ]


def _swatches(layout: Layout, y: float) -> list[Item]:
    items: list[Item] = []
    x = 0.0
    colors = layout.scene.colors
    for name, color in (("trim", colors.trim), ("panels", colors.panels), ("walls", colors.walls)):
        ring = rectangle(x, y - 0.2, x + 0.34, y)
        words = f"{name} {color}"
        items += [
            Area((ring,), color, "swatch"),
            Stroke(ring, 0.008, INK, closed=True, name="swatch"),
            Words(words, (x + 0.42, y - 0.1 - SMALL * 0.36), SMALL, color=INK, name="swatch"),
        ]
        x += 0.42 + width_of(words, SMALL) + 0.3
    return items


def _warning(errors: Sequence[Finding], width: float) -> Block:
    """Return a box that says what to settle before anything is cut."""
    rules = ", ".join(dict.fromkeys(finding.rule for finding in errors))
    texts = wrapped(f"Settle these first: {rules}.", BODY, width - 0.3)
    height = 0.42 + BODY * LINE * len(texts)
    ring = rectangle(0.0, -height, width, 0.0)
    number = f"{len(errors)} error{'s' if len(errors) > 1 else ''}"
    return Block(
        height,
        (
            Area((ring,), WASH, "warning"),
            Stroke(ring, 0.025, INK, closed=True, name="warning"),
            Words(
                f"Do not cut yet: {number}",
                (0.15, -0.1 - LARGE * 0.8),
                LARGE,
                bold=True,
                color=INK,
                name="warning",
            ),
            *lines(texts, (0.15, -0.32), BODY),
        ),
    )
