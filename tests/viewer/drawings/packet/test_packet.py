"""The packet as a reader gets it: text, page numbers, contents and outline of the PDF, and its rendered pages.

Nothing that an installer is told anywhere is left out of it: every piece, end, step, screw and dimension of the report.
"""

import io
import re
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pypdf
import pypdfium2
import pytest
from collisions import collisions
from once import once
from paged import box_of, paged
from PIL import Image
from zoo import NAMES, OTHERS, layout

from trimwright.model.checks.groups import groups_of, marks_of
from trimwright.model.checks.run import check, why
from trimwright.model.joints.end import End
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.data.report import pieces_of, report_of
from trimwright.viewer.display.ends import meets
from trimwright.viewer.drawings.ink.drawing import Drawing, Words
from trimwright.viewer.drawings.ink.letters import plain
from trimwright.viewer.drawings.ink.pdf import Heading, pdf_of
from trimwright.viewer.drawings.packet.cover import cover
from trimwright.viewer.drawings.packet.packet import Packet, bind, packet_pdf
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.drawings.paper.sizes import PAPERS, Paper
from trimwright.viewer.drawings.piece.end_kinds import letters
from trimwright.viewer.drawings.run.run_facts import merged
from trimwright.viewer.words.speaker import speaker_of

SOME = ("boat-shed", "slip-shed", "bakehouse")
DATE = "2026-11-20"


@once
def packet(name: str, paper: Paper = "letter") -> Packet:
    plan = layout(name)
    return bind(plan, check(plan), timed_takeoff(plan), imprint_of(plan.scene, DATE), paper)


@cache
def written(name: str) -> bytes:
    return packet_pdf(packet(name), speaker_of(layout(name).scene))


def pages_of(name: str, chapter: str) -> list[Drawing]:
    """Return the pages from the one that a chapter begins on to the one that the next begins on."""
    bound = packet(name)
    starts = [entry for entry in bound.outline if entry.level == 0]
    at = next(k for k, entry in enumerate(starts) if entry.title == chapter)
    end = starts[at + 1].page + 1 if at + 1 < len(starts) else len(bound.pages)
    return list(bound.pages[starts[at].page : end])


def said(*pages: Drawing) -> str:
    words = [item.text for page in pages for item in page.items if isinstance(item, Words)]
    return " ".join(" ".join(words).replace("\N{NO-BREAK SPACE}", " ").split())


@pytest.mark.parametrize(
    ("name", "paper"), [*((name, "letter") for name in [*NAMES, *OTHERS]), *((name, "a4") for name in SOME)]
)
def test_nothing_collides(name: str, paper: Paper) -> None:
    pages = packet(name, paper).pages
    assert [(page.title, found) for page in pages for found in collisions(page)] == []
    assert {page.size for page in pages} == {PAPERS[paper]}


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_what_a_chapter_is_of_begins_on_the_page_of_its_heading(name: str) -> None:
    """A heading at the foot of a page, with a sentence on how all of it is read, heads nothing."""
    bound, parts = packet(name), layout(name).parts
    firsts = {
        "Run elevations": "of roof edge, seen",
        "Ends": "Comes |Square ends: ",
        "Piece list": f"{parts[0].mark} {parts[0].run.section.profile}",
        "Bend list": "Form ",
    }
    begun = {entry.title: said(bound.pages[entry.page]) for entry in bound.outline if entry.level == 0}
    assert [title for title, words in firsts.items() if not re.search(words, begun[title])] == []


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_nothing_of_the_report_is_lost(name: str) -> None:
    plan = layout(name)
    say, text = speaker_of(plan.scene), said(*packet(name).pages)
    sheet = {(one.part.mark, one.end.at): kind for kind in packet(name).kinds for one in kind.ends}
    for piece in pieces_of(plan):
        part = plan.part(piece["name"])
        for word in (part.mark, part.run.name, piece["profile"], say.tape(piece["length"])):
            assert word in text
        for at in merged(piece["screws"]):
            assert say.tape(at) in text
        for end, told in zip(part.ends, [*_ends(piece, "low"), *_ends(piece, "high")], strict=True):
            kind = sheet[part.mark, end.at]
            first = kind.first.end
            for step, own, written_down in zip(end.steps, first.steps, told["steps"], strict=True):
                assert say(step.says) == written_down["text"]
                assert plain(say(kind.told(own))) in text
                for place in written_down["lengths"].values():
                    assert say.tape(place) in text or any(
                        abs(place - same) <= 1 / 32 for same in own.lengths.values()
                    ), "alike to what snips can follow"
            assert all(mark in text for mark in told["with"])


def _ends(piece: dict[str, Any], at: str) -> list[dict[str, Any]]:
    """Return what a report says of one end of a piece."""
    return [
        {**end, "with": [end["with"]] if isinstance(end["with"], str) else end["with"]}
        for end in (*piece["laps"], *piece["joints"])
        if end["at"] == at
    ]


@pytest.mark.parametrize(
    ("name", "paper"), [("boat-shed", "letter"), ("bakehouse", "letter"), ("sail-loft", "a4")]
)
def test_a_roof_of_twenty_pieces_takes_twenty_pages(name: str, paper: Paper) -> None:
    assert len(layout(name).parts) == 20
    assert len(packet(name, paper).pages) <= 20


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
    items = [item for item in bound.pages[0].items if isinstance(item, Words)]
    titles = [item.text for item in items if item.name == "entry"]
    numbers = [int(item.text) for item in items if item.name == "entry page"]
    assert {(entry.title, entry.page + 1) for entry in bound.outline[1:]} == set(
        zip(titles, numbers, strict=True)
    )
    for title, number in zip(titles, numbers, strict=True):
        assert title.partition(": ")[0] in said(bound.pages[number - 1])


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_letters_of_ends_come_in_the_order_of_the_pages(name: str) -> None:
    pages = packet(name).pages
    named = [
        item.text for page in pages for item in page.items if isinstance(item, Words) and item.name == "code"
    ]
    codes = [kind.code for kind in packet(name).kinds if kind.code]
    assert codes == [letters(number) for number in range(len(codes))]
    assert list(dict.fromkeys(code for code in named if code in codes)) == codes


@pytest.mark.parametrize("name", SOME)
def test_the_outline_leads_to_every_chapter_and_end(name: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(written(name)))

    def flat(entries: list[Any]) -> list[tuple[str, int]]:
        found: list[tuple[str, int]] = []
        for entry in entries:
            if isinstance(entry, list):
                found += flat(entry)
            else:
                page = reader.get_destination_page_number(entry)
                found.append((str(entry.title), -1 if page is None else page))
        return found

    assert flat(reader.outline) == [(entry.title, entry.page) for entry in packet(name).outline]


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
    for chapter in ("Crew page", "Roof plan and key", "Run elevations", "Ends", "Piece list", "Labels"):
        named = set(re.findall(r"\b[ERTCHV]\d+-\d+\b", said(*pages_of(name, chapter))))
        assert named == marks, chapter


@pytest.mark.parametrize("name", SOME)
def test_the_piece_list_leads_to_the_sheets(name: str) -> None:
    text = said(*pages_of(name, "Piece list"))
    for kind in packet(name).kinds:
        for one in kind.ends:
            meets_it = say_meets(name, one.end)
            assert (f"{kind.code}: {meets_it}" if kind.code else meets_it) in text


def say_meets(name: str, end: End) -> str:
    return speaker_of(layout(name).scene)(meets(end))


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
    [drawn] = _cover(tmp_path / "finish.png")
    page = pypdfium2.PdfDocument(pdf_of([drawn], "Oars"))[0]
    colors = np.asarray(page.render(scale=0.5).to_pil().convert("RGB"))
    assert (colors == (32, 64, 192)).all(axis=2).mean() > 0.15
    assert collisions(drawn) == []


def test_a_picture_that_is_none_is_refused(tmp_path: Path) -> None:
    (tmp_path / "finish.png").write_bytes(b"no picture")
    with pytest.raises(ValueError, match="no PNG picture"):
        _cover(tmp_path / "finish.png")


def _cover(picture: Path) -> tuple[Drawing, ...]:
    plan = layout("oar-store")
    blocks = cover(plan, (), picture, [Heading("Crew page", 1)], box_of(plan), speaker_of(plan.scene))
    return paged(plan, blocks)


MOST = 29
"""Pages that a roof of forty pieces takes, at most."""

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
    assert len(bound.pages) <= MOST
    assert len(packet_pdf(bound, imprint_of(plan.scene).say)) < 10e6
    assert [number for _, number, _ in told] == list(range(1, told[0][2] + 1))


def test_a_packet_in_two_languages_takes_half_as_many_pages_again() -> None:
    """All is told twice; pictures, marks and lengths are there once."""
    plan = build(scene_from(f'language = ["en", "es"]\n{FORTY}', "forty.toml"))
    bound = bind(plan, check(plan), timed_takeoff(plan), imprint_of(plan.scene))
    assert len(bound.pages) <= round(1.5 * MOST)
    assert [(page.title, found) for page in bound.pages for found in collisions(page)] == []
