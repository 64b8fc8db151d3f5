"""The page as a file: what it weighs, what it holds, what it prints, and what it does where it cannot draw."""

import base64
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh
from playwright.sync_api import Browser

from tests.viewer.page.looking import opened, text_of, unpacked
from tests.zoo import NAMES, layout
from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.display.cladding import panel_beside
from trimwright.viewer.page.page import page_of
from trimwright.viewer.page.payload import payload_of
from trimwright.viewer.page.shapes import METERS, to_meters

HOSTILE = "</script><script>document.title='taken'</script><img src=x onerror=\\\"document.title='taken'\\\">"

SCENE = '[roof]\nform = "gable"\nlength = "14\'"\nwidth = "12\'"\npitch = "6/12"\n'


def shapes_in(payload: dict[str, Any]) -> Iterator[tuple[trimesh.Trimesh, np.ndarray, np.ndarray]]:
    """The mesh, the sides of its vertices and the lines of each body, taken apart as the page does it."""
    index = f"<u{payload['shapes']['index']}"
    kinds = {"points": ("<f4", 3), "side": ("i1", 1), "faces": (index, 3), "lines": (index, 2)}
    points, side, faces, lines = (
        np.frombuffer(base64.b64decode(payload["shapes"][name]), kind).reshape(-1, wide)
        for name, (kind, wide) in kinds.items()
    )
    counts = np.array([body["counts"] for body in payload["bodies"]])
    ends = counts.cumsum(axis=0)
    assert ends[-1].tolist() == [len(points), len(faces), len(lines)] and len(side) == len(points)
    for (v, f, k), (v_end, f_end, k_end) in zip(ends - counts, ends, strict=True):
        mesh = trimesh.Trimesh(points[v:v_end], faces[f:f_end], process=False)
        yield mesh, side[v:v_end, 0], lines[k:k_end]


@pytest.mark.parametrize("name", NAMES)
def test_shapes_are_those_of_the_pieces_where_they_are(name: str) -> None:
    here = layout(name)
    payload = payload_of(here, check(here))
    solids = {part.mark: part.solid for part in here.parts}
    found = 0
    for body, (mesh, _, lines) in zip(payload["bodies"], shapes_in(payload), strict=True):
        if body["kind"] != "trim":
            continue
        found += 1
        solid = solids[body["name"]]
        low, high = solid.vertices.min(axis=0), solid.vertices.max(axis=0)
        box = np.array([[low[0], low[2], -high[1]], [high[0], high[2], -low[1]]]) * 0.0254
        np.testing.assert_allclose(mesh.bounds, box, atol=1e-5)
        mesh.merge_vertices()
        assert mesh.is_watertight
        assert mesh.volume == pytest.approx(solid.volume * 0.0254**3, rel=1e-3)
        assert len(lines) and lines.max() < body["counts"][0]
    assert found == len(here.parts)


@pytest.mark.parametrize("name", NAMES)
def test_panels_of_a_face_are_one_body_that_knows_each_and_has_lines_where_it_is_painted(name: str) -> None:
    here = layout(name)
    payload = payload_of(here, ())
    panels = {panel.name: panel for panel in here.panels}
    beside = panel_beside(here)
    with_cleats = {beside[cleat.mark] for cleat in here.cleats if cleat.mark in beside}
    for body, (mesh, side, lines) in zip(payload["bodies"], shapes_in(payload), strict=True):
        if body["kind"] != "pan":
            continue
        first = [start for _, start in body["panels"]]
        for (panel, start), end in zip(body["panels"], [*first[1:], len(mesh.faces)], strict=True):
            points = mesh.vertices[np.unique(mesh.faces[start:end])]
            outline = to_meters(panels[panel].outline)
            near = np.linalg.norm(points[:, None] - outline[None], axis=2).min(axis=0)
            assert near.max() < 0.25 * METERS, panel
            room = 4.0 * METERS + here.scene.panels.seam * METERS
            if panel not in with_cleats:  # those reach along the whole edge of the face
                assert (points > outline.min(axis=0) - room).all()
                assert (points < outline.max(axis=0) + room).all()
        painted = {tuple(at) for at in mesh.vertices[side > 0].tolist()}
        assert {tuple(at) for at in mesh.vertices[lines.ravel()].tolist()} <= painted


@pytest.mark.parametrize("name", NAMES)
def test_steps_set_every_piece_once_and_at_laps_what_lies_under_first(name: str) -> None:
    payload = payload_of(layout(name), ())
    names = [name for step in payload["steps"] for name in step["names"]]
    assert len(names) == len(set(names))
    bodies = {body["name"]: body for body in payload["bodies"] if body["kind"] == "pan"}
    assert set(names) == {piece["mark"] for piece in payload["pieces"]} | set(bodies)
    assert [name for body in bodies.values() for name, _ in body["panels"]] == list(payload["panels"])
    place = {mark: number for number, mark in enumerate(names)}
    for part in layout(name).parts:
        for lap in part.ends.laps:
            assert (place[lap.others[0]] < place[part.mark]) == (lap.lies == "over")


def test_a_house_of_forty_pieces_is_small_enough_to_send() -> None:
    text = page_of(
        build(scene_from('title = "House"\n' + SCENE.replace("14'", "110'").replace("12'", "40'"))), ()
    )
    assert len(unpacked(text)["data"]["pieces"]) >= 40
    assert len(text.encode()) <= 1.2e6


def test_hostile_titles_are_inert(chromium: Browser, tmp_path: Path) -> None:
    here = build(scene_from(f'title = "{HOSTILE}"\n' + SCENE))
    context = chromium.new_context(reduced_motion="reduce", offline=True)
    looking = opened(context, page_of(here, check(here)), tmp_path / "roof.html")
    title = here.scene.title
    assert "<script>" in title
    assert looking.page.title() == title
    assert looking.page.inner_text(".tw-title") == title
    assert looking.page.locator("img[src=x]").count() == 0
    assert looking.problems == []
    context.close()


def test_without_webgl_there_are_words_pictures_and_lists(chromium: Browser, tmp_path: Path) -> None:
    here = layout("boat-shed")
    jpeg = base64.b64decode(
        "/9j/4AAQSkZJRgABAQEASABIAAD/2wBDAP////////////////////////////////////////////////////////////////////////"
        "//////////////wgALCAABAAEBAREA/8QAFBABAAAAAAAAAAAAAAAAAAAAAP/aAAgBAQABPxA="
    )
    context = chromium.new_context(offline=True)
    context.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    looking = opened(context, page_of(here, check(here), {"From the street": jpeg}), tmp_path / "roof.html")
    assert "WebGL is missing" in looking.page.inner_text("#plain-reason")
    assert looking.page.locator("img[alt='From the street']").is_visible()
    assert looking.page.locator("tbody tr").count() == len(here.parts)
    context.close()


def test_without_script_there_are_lists(chromium: Browser, tmp_path: Path) -> None:
    file = tmp_path / "roof.html"
    file.write_text(text_of("boat-shed"), encoding="utf-8")
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file.as_uri())
    assert "R1-1" in page.inner_text(".tw-printed table")
    context.close()


def test_prints_pieces_findings_and_cautions(chromium: Browser, tmp_path: Path) -> None:
    context = chromium.new_context(offline=True)
    looking = opened(context, text_of("slip-shed"), tmp_path / "roof.html")
    looking.page.emulate_media(media="print")
    text = looking.page.inner_text(".tw-printed")
    assert not looking.page.locator("#roof").is_visible()
    assert "power lines" in text and "falls" in text
    assert "lap-too-short" in text
    assert all(part.mark in text for part in layout("slip-shed").parts)
    context.close()


def test_the_address_of_a_label_opens_its_piece(chromium: Browser, tmp_path: Path) -> None:
    context = chromium.new_context(viewport={"width": 400, "height": 800}, reduced_motion="reduce")
    file = tmp_path / "roof.html"
    file.write_text(text_of("boat-shed"), encoding="utf-8")
    page = context.new_page()
    page.goto(f"{file.as_uri()}#R1-2")
    page.wait_for_selector("body[data-ready]", state="attached")
    assert "R1-2" in page.inner_text(".tw-sheet-title")
    page.evaluate("location.hash = 'C1-1'")
    page.wait_for_function("document.querySelector('.tw-sheet-title').textContent.includes('C1-1')")
    page.evaluate(
        "new Promise((done) => { addEventListener('hashchange', () => done()); location.hash = 'nothing'; })"
    )
    assert "C1-1" in page.inner_text(".tw-sheet-title")
    context.close()


def test_page_may_ask_nobody() -> None:
    text = text_of("boat-shed")
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', text)
    assert policy and policy[1].startswith("default-src 'none'")
    for part in (re.sub(r'"data:[^"]*"', "", text), str(unpacked(text)["data"])):
        assert not re.search(r'(src|href)\s*=\s*["\']?https?:', part)
