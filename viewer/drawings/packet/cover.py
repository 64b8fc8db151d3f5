"""The cover and the contents of a packet."""

from __future__ import annotations

import struct
from collections.abc import Iterator, Sequence
from pathlib import Path

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import Expanse, Fine, Length, Listed
from trimwright.model.metals import METAL_WORDS

from ...display.paints import color_told, is_bare
from ...report.short import short_pieces
from ...report.terms import told_first
from ...report.words import totals
from ...words.key_names import FORMS
from ...words.roof_names import named
from ...words.speaker import Speaker
from ..ink.drawing import Area, Item, Picture, Stroke, Words, moved
from ..ink.letters import width_of, wrapped
from ..ink.pdf import Heading
from ..ink.shapes import lines, rectangle
from ..ink.style import BODY, FAINT, INK, LARGE, LINE, SMALL, SOFT, WASH
from ..paper.flow import Block, heading, paragraph, space
from ..paper.page import Room

TERMS = 8
"""Lines of the terms of the check that the cover has."""

MOST = 4
"""Short pieces that the cover names, in one language; in several, so many fewer."""

FEW = 20
"""Entries of the contents that stand in two columns; more stand in three where they are narrow enough."""

NAMES = 0.95
"""Room for the names of facts at least, inches."""

BELOW = 0.14
"""White under the picture, inches."""

LEAST, TALLEST = 1.5, 3.4
"""How high the picture is, inches on the paper: as high as what stands under it leaves room."""


def cover(
    layout: Layout,
    findings: Sequence[Finding],
    picture: Path | None,
    entries: Sequence[Heading],
    box: Room,
    say: Speaker,
) -> Iterator[Block]:
    """Yield the cover: the finished roof, what the packet is about, and where everything is.

    Args:
        layout: The layout.
        findings: What is wrong with it.
        picture: PNG file of the finished roof; None when there is none.
        entries: The contents.
        box: What a page leaves for it.
        say: Puts it into words.

    Raises:
        OSError: The picture cannot be read.
        ValueError: The picture is no PNG file.
    """
    told = [*_told(layout, findings, box.width, say), space(0.08), *_contents(entries, box.width, say)]
    if picture is not None:
        tall = min(max(box.height - BELOW - sum(block.height for block in told), LEAST), TALLEST)
        yield _picture(picture, box.width, tall, say("{title}: the finished roof", title=layout.scene.title))
        yield space(BELOW)
    yield from told


def _contents(entries: Sequence[Heading], width: float, say: Speaker) -> list[Block]:
    """Return the contents in columns."""
    widest = max((0.15 * entry.level + width_of(entry.title, SMALL) for entry in entries), default=0.0) + 0.6
    abreast = 3 if len(entries) > FEW and widest < width / 3 else 2
    wide = (width - 0.35 * (abreast - 1)) / abreast
    told = [_entry(entry, wide) for entry in entries]
    tall = max(sum(each.height for each in told) / abreast, *(each.height for each in told), 0.0)
    items: list[Item] = []
    column, y, low = 0, 0.0, 0.0
    for each in told:
        if y <= -tall + 1e-9 and column < abreast - 1:
            column, y = column + 1, 0.0
        items += moved(each.items, (column * (wide + 0.35), y))
        y -= each.height
        low = min(low, y)
    return [heading(say("Contents"), BODY * 1.1), Block(-low, tuple(items))]


def _entry(entry: Heading, width: float) -> Block:
    """Return a line of the contents, broken where it is longer than its column."""
    number = str(entry.page + 1)
    left = 0.15 * entry.level
    texts = wrapped(entry.title, SMALL, width - left - width_of(number, SMALL, bold=True) - 0.2)
    bases = [-SMALL - SMALL * LINE * k for k in range(len(texts))]
    items: list[Item] = [
        Words(text, (left, base), SMALL, color=INK, name="entry")
        for text, base in zip(texts, bases, strict=True)
    ]
    base = bases[-1]
    items.append(Words(number, (width, base), SMALL, "end", bold=True, color=INK, name="entry page"))
    start = left + width_of(texts[-1], SMALL) + 0.08
    end = width - width_of(number, SMALL, bold=True) - 0.08
    if end > start:
        items.append(Stroke(((start, base + 0.02), (end, base + 0.02)), 0.008, FAINT, (0.005, 0.05)))
    return Block(SMALL * 0.45 - base, tuple(items))


def _told(layout: Layout, findings: Sequence[Finding], width: float, say: Speaker) -> Iterator[Block]:
    """Yield what the packet is about, and by which terms it was checked."""
    yield _facts(layout, findings, width, say)
    errors = [finding for finding in findings if finding.severity == "error"]
    if errors:
        yield space(0.1)
        yield _warning(errors, width, say)
    yield space(0.1)
    yield from _terms(layout, findings, width, say)


def _terms(layout: Layout, findings: Sequence[Finding], width: float, say: Speaker) -> Iterator[Block]:
    """Yield by which terms it was checked; of many, the first, and how many more stand over the findings."""
    told = list(told_first(layout, findings, say.tape))
    shown = told if len(told) <= TERMS else told[: TERMS - 1]
    for term in shown:
        yield paragraph(say(term), width, SMALL, color=SOFT)
    if more := len(told) - len(shown):
        yield paragraph(say("And {count} more, over the findings.", count=more), width, SMALL, color=SOFT)


def _picture(picture: Path, width: float, tall: float, says: str) -> Block:
    wide, high = _png_size(picture)
    scale = min(width / wide, tall / high)
    size = (wide * scale, high * scale)
    corner = ((width - size[0]) / 2, -size[1])
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


def _facts(layout: Layout, findings: Sequence[Finding], width: float, say: Speaker) -> Block:
    """Return what the packet is about, in two columns."""
    half = width / 2 - 0.15
    left = _column(_roof_facts(layout, say), 0.0, half)
    right = _column(_trim_facts(layout, findings, say), half + 0.3, half)
    x = half + 0.15
    height = max(left.height, right.height)
    swatches = _swatches(layout, width, -height - 0.06, say)
    line = Stroke(((x, -0.05), (x, -height)), 0.006, FAINT, name="rule")
    return Block(height + swatches.height, (*left.items, *right.items, line, *swatches.items))


def _column(facts: Sequence[tuple[str, str]], x: float, width: float) -> Block:
    items: list[Item] = []
    names = max(NAMES, *(width_of(name, SMALL, bold=True) + 0.1 for name, _ in facts))
    y = 0.0
    for name, text in facts:
        items.append(Words(name, (x, y - SMALL), SMALL, bold=True, color=SOFT, name="fact"))
        texts = wrapped(text, BODY, width - names)
        items += lines(texts, (x + names, y + 0.01), BODY)
        y -= BODY * LINE * len(texts) + 0.06
    return Block(-y, tuple(items))


def _roof_facts(layout: Layout, say: Speaker) -> list[tuple[str, str]]:
    scene, roof = layout.scene, layout.scene.roof
    faces, area = layout.roof.faces, Expanse(sum(face.area for face in layout.roof.faces))
    size = say(
        "{form}, {length} by {width} over the walls",
        form=FORMS[roof.form],
        length=Length(roof.length),
        width=Length(roof.width),
    )
    panels = say.counted(
        "{count}, seams every {cover}",
        "{count}, seams every {cover}",
        count=len(layout.panels),
        cover=Length(scene.panels.cover),
    )
    metal = say(
        "{metal}, {thickness} thick",
        metal=METAL_WORDS[scene.metal.kind],
        thickness=Fine(scene.metal.thickness),
    )
    return [
        (say("Roof"), size),
        (say("Pitch"), ", ".join(dict.fromkeys(scene.tape.pitch(face.slope) for face in faces))),
        (
            say("Deck"),
            say.counted("{area} in {count} face", "{area} in {count} faces", len(faces), area=area),
        ),
        (say("Panels"), panels),
        (say("Metal"), metal),
        (say("Rules"), layout.limits.name),
    ]


def _trim_facts(layout: Layout, findings: Sequence[Finding], say: Speaker) -> list[tuple[str, str]]:
    pieces = say.counted("{count} piece", "{count} pieces", count=len(layout.parts))
    runs = say.counted("{count} run", "{count} runs", count=len(layout.runs))
    screws = say("{count}, {kind}", count=len(layout.screws), kind=METAL_WORDS[layout.scene.screws.kind])
    return [
        (say("Trim"), say("{pieces} in {runs}", pieces=pieces, runs=runs)),
        (say("Screws"), screws),
        (say("Findings"), say(totals(findings))),
        *(("" if place else say("Short pieces"), line) for place, line in enumerate(_short(layout, say))),
    ]


def _short(layout: Layout, say: Speaker) -> list[str]:
    """Return a line for each short piece, for not too many of them."""
    found = [
        say(
            "{mark}, {length}: {where} of {run}",
            mark=one.mark,
            length=Length(one.length),
            where=one.spot.name,
            run=named(one.run, say),
        )
        for one in short_pieces(layout)
    ]
    most = MOST // (1 + len(say.beside))
    if len(found) > most + 1:
        return [*found[:most], say("and {count} more", count=len(found) - most)]
    return found or [say("none")]


def _swatches(layout: Layout, width: float, top: float, say: Speaker) -> Block:
    """Return a sample of each color with its name, in rows."""
    items: list[Item] = []
    x, y, scene, colors = 0.0, top, layout.scene, layout.scene.colors
    bare = is_bare(scene)
    for words, color in (
        (say("trim {color}", color=color_told(colors.trim, scene, bare)), colors.trim),
        (say("panels {color}", color=color_told(colors.panels, scene, bare)), colors.panels),
        (say("walls {color}", color=color_told(colors.walls, scene)), colors.walls),
    ):
        long = 0.42 + width_of(words, SMALL)
        if x and x + long > width:
            x, y = 0.0, y - 0.28
        ring = rectangle(x, y - 0.2, x + 0.34, y)
        items += [
            Area((ring,), color, "swatch"),
            Stroke(ring, 0.008, INK, closed=True, name="swatch"),
            Words(words, (x + 0.42, y - 0.1 - SMALL * 0.36), SMALL, color=INK, name="swatch"),
        ]
        x += long + 0.3
    return Block(top - y + 0.36, tuple(items))


def _warning(errors: Sequence[Finding], width: float, say: Speaker) -> Block:
    """Return a box that says what to settle before anything is cut."""
    rules = Listed(tuple(dict.fromkeys(finding.rule for finding in errors)), "comma")
    texts = wrapped(say("Settle these first: {rules}.", rules=rules), BODY, width - 0.3)
    height = 0.42 + BODY * LINE * len(texts)
    ring = rectangle(0.0, -height, width, 0.0)
    title = say.counted("Do not cut yet: {count} error", "Do not cut yet: {count} errors", count=len(errors))
    at = (0.15, -0.1 - LARGE * 0.8)
    return Block(
        height,
        (
            Area((ring,), WASH, "warning"),
            Stroke(ring, 0.025, INK, closed=True, name="warning"),
            Words(title, at, LARGE, bold=True, color=INK, name="warning"),
            *lines(texts, (0.15, -0.32), BODY),
        ),
    )
