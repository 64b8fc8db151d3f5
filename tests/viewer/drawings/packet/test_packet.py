"""The packet as a reader gets it: text, page numbers, contents and outline of the PDF, and its rendered pages."""

import io
import re
from functools import cache
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2
import pytest
from collisions import collisions
from PIL import Image
from pytest import approx
from zoo import NAMES, OTHERS, layout

from trimwright.model.checks.groups import groups_of, marks_of
from trimwright.model.checks.run import check, why
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.buy.timed import timed_takeoff
from trimwright.viewer.data.report import report_of
from trimwright.viewer.drawings.ink.drawing import Drawing, Words
from trimwright.viewer.drawings.ink.pdf import pdf_of
from trimwright.viewer.drawings.packet.cover import cover
from trimwright.viewer.drawings.packet.findings_list import findings_list
from trimwright.viewer.drawings.packet.lists import cutting_pages, piece_list, shopping_list
from trimwright.viewer.drawings.packet.packet import Packet, bind, packet_pdf
from trimwright.viewer.drawings.packet.site_checklist import site_checklist
from trimwright.viewer.drawings.paper.page import PAPERS, Paper, imprint_of

SOME = ("boat-shed", "slip-shed", "bakehouse")
DATE = "2026-11-20"


@cache
def packet(name: str) -> Packet:
    plan = layout(name)
    return bind(plan, check(plan), timed_takeoff(plan), imprint_of(plan.scene, DATE))


@cache
def written(name: str) -> bytes:
    bound = packet(name)
    return pdf_of(bound.pages, bound.title, chapters=bound.chapters)


def chapter_of(name: str, page: int) -> str:
    """Return the chapter that a page, counted from 0, belongs to."""
    return [title for start, title in packet(name).chapters.items() if start <= page][-1]


def pages_of(name: str, chapter: str) -> list[Drawing]:
    return [page for k, page in enumerate(packet(name).pages) if chapter_of(name, k) == chapter]


def said(*pages: Drawing) -> str:
    words = [item.text for page in pages for item in page.items if isinstance(item, Words)]
    return " ".join(" ".join(words).split())


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_nothing_collides(name: str, paper: Paper) -> None:
    plan = layout(name)
    findings, takeoff, imprint = check(plan), timed_takeoff(plan), imprint_of(plan.scene, DATE)
    pages = [
        cover(plan, findings, None, paper, imprint),
        *site_checklist(plan, paper, imprint),
        *findings_list(plan, findings, paper, imprint),
        *piece_list(plan, {part.mark: 199 for part in plan.parts}, paper, imprint),
        *shopping_list(plan, takeoff, paper, imprint),
        *cutting_pages(takeoff, paper, imprint),
    ]
    assert [(page.title, found) for page in pages for found in collisions(page)] == []
    assert {page.size for page in pages} == {PAPERS[paper]}


@pytest.mark.parametrize("name", SOME)
def test_every_page_says_its_number_the_scene_and_the_cautions(name: str) -> None:
    document = pypdfium2.PdfDocument(written(name))
    for number, page in enumerate(document, 1):
        text = " ".join(page.get_textpage().get_text_range().split())
        assert f"Page {number} of {len(document)}" in text
        assert layout(name).scene.title in text
        assert "2026-11-20" in text
        assert "cut edges are sharp" in text
        assert "power lines" in text


@pytest.mark.parametrize("name", SOME)
def test_the_contents_say_where_everything_is(name: str) -> None:
    bound = packet(name)
    listed = pages_of(name, "Contents")
    items = [item for page in listed for item in page.items if isinstance(item, Words)]
    titles = [item.text for item in items if item.name == "entry"]
    numbers = [int(item.text) for item in items if item.name == "entry page"]
    assert [found for page in listed for found in collisions(page)] == []
    assert set(bound.chapters.values()) - {"Contents", bound.title} <= set(titles)
    for title, number in zip(titles, numbers, strict=True):
        assert title in (bound.pages[number - 1].title, chapter_of(name, number - 1))
    named = set(titles) | set(bound.chapters.values())
    assert {page.title.removesuffix(", continued") for page in bound.pages} <= named


@pytest.mark.parametrize("name", SOME)
def test_the_outline_leads_to_every_chapter(name: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(written(name)))
    chapters = [entry for entry in reader.outline if not isinstance(entry, list)]
    found = {reader.get_destination_page_number(entry): entry.title for entry in chapters}
    assert found == packet(name).chapters


def test_the_document_says_what_it_is_and_names_no_author() -> None:
    reader = pypdf.PdfReader(io.BytesIO(written("boat-shed")))
    assert reader.metadata is not None
    assert reader.metadata.title == "Boat shed on the north shore"
    assert not reader.metadata.author
    assert reader.trailer["/Root"]["/Lang"] == "en"


@pytest.mark.parametrize("name", SOME)
def test_marks_agree_with_the_report(name: str) -> None:
    report = report_of(layout(name), check(layout(name)))
    marks = {piece["name"] for piece in report["pieces"]}
    for chapter in ("Roof plan and key", "Run elevations", "Cut sheets", "Piece list", "Cutting diagram"):
        named = set(re.findall(r"\b[ERTCH]\d+-\d+\b", said(*pages_of(name, chapter))))
        assert named == marks, chapter


@pytest.mark.parametrize("name", SOME)
def test_the_piece_list_leads_to_the_sheets(name: str) -> None:
    words = [item for page in pages_of(name, "Piece list") for item in page.items if isinstance(item, Words)]
    for part in layout(name).parts:
        [mark] = [item for item in words if item.text == part.mark and item.bold]
        row = [item for item in words if item.at[1] == approx(mark.at[1], abs=1e-6)]
        sheet = int(max(row, key=lambda item: item.at[0]).text)
        assert chapter_of(name, sheet - 1) == "Cut sheets"
        assert part.mark in said(packet(name).pages[sheet - 1])


def test_findings_are_told_with_limit_source_and_trust() -> None:
    text = said(*pages_of("slip-shed", "Findings"))
    for group in groups_of(check(layout("slip-shed"))):
        finding = group[0]
        for words in (
            finding.rule,
            ", ".join(marks_of(group)) if len(group) > 1 else "",
            str(finding.message),
            str(why(finding)),
            str(finding.limit.source.whole),
            finding.accepted or "",
        ):
            assert " ".join(words.split()) in text
    assert "the owner does not mind" in text
    assert "a ridge vent comes later" in text
    assert "Trust: practice" in text


def test_a_cover_says_what_to_settle_before_anything_is_cut() -> None:
    findings = check(layout("slip-shed"))
    errors = [finding for finding in findings if finding.severity == "error"]
    text = said(packet("slip-shed").pages[0])
    assert f"Do not cut yet: {len(errors)} errors" in text
    assert all(finding.rule in text for finding in errors)
    assert "Do not cut yet" not in said(packet("boat-shed").pages[0])


def test_what_to_tick_before_trim_goes_on() -> None:
    text = said(*pages_of("bakehouse", "Before trim goes on"))
    for words in ("driven home or drawn", "straight and sound", "Underlayment", "tape, square", "Tie-off"):
        assert words in text
    for edge in layout("bakehouse").roof.edges:
        assert edge.name in text


def test_pages_are_printed_dark_on_white_and_keep_off_their_edges() -> None:
    for page in pypdfium2.PdfDocument(written("bakehouse")):
        shades = np.array(page.render(scale=0.5).to_pil().convert("L"))
        assert shades.min() < 110
        assert 0.001 < (shades < 200).mean() < 0.5
        shades[10:-10, 10:-10] = 255
        assert shades.min() > 240


def test_the_cover_shows_the_picture(tmp_path: Path) -> None:
    Image.new("RGB", (300, 200), "#2040c0").save(tmp_path / "finish.png")
    drawn = cover(
        layout("oar-store"), (), tmp_path / "finish.png", "letter", imprint_of(layout("oar-store").scene)
    )
    page = pypdfium2.PdfDocument(pdf_of([drawn], "Oars"))[0]
    colors = np.asarray(page.render(scale=0.5).to_pil().convert("RGB"))
    assert (colors == (32, 64, 192)).all(axis=2).mean() > 0.2
    assert collisions(drawn) == []


def test_a_picture_that_is_none_is_refused(tmp_path: Path) -> None:
    (tmp_path / "finish.png").write_bytes(b"no picture")
    with pytest.raises(ValueError, match="no PNG picture"):
        cover(
            layout("oar-store"), (), tmp_path / "finish.png", "letter", imprint_of(layout("oar-store").scene)
        )


FORTY = """
title = "Long house"
[roof]
form = "hip"
length = "80'"
width = "34'"
pitch = "6/12"
end_pitch = "8/12"
"""


def test_a_packet_of_forty_pieces_is_small_and_tells_each_page() -> None:
    plan = build(scene_from(FORTY, "forty.toml"))
    assert len(plan.parts) >= 40
    findings, takeoff = check(plan), timed_takeoff(plan)
    told: list[tuple[str, int, int]] = []
    bound = bind(
        plan,
        findings,
        takeoff,
        imprint_of(plan.scene),
        tell=lambda what, *step: told.append((str(what), *step)),
    )
    assert len(packet_pdf(bound, imprint_of(plan.scene).say)) < 10e6
    assert [number for _, number, _ in told] == list(range(1, told[0][2] + 1))
