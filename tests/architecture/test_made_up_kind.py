"""A kind of edge that nobody has heard of: its row in the table and its words are all that it takes.

A `curb` stands in for the front eave of a gable. It is laid out, checked, drawn, reported and handed to the page,
with no other line of the program knowing its name.
"""

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from jsonschema import Draft202012Validator
from solids import depths

from trimwright.model import pipeline
from trimwright.model.checks.run import check
from trimwright.model.edge_kinds import FACED, KINDS, TrimKind
from trimwright.model.layout import Layout
from trimwright.model.message import message
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.read import scene_of
from trimwright.model.scene.roof import RoofSpec
from trimwright.model.takeoff.count import take_off
from trimwright.viewer.data.glb import glb_of
from trimwright.viewer.data.pieces_csv import piece_list
from trimwright.viewer.data.report import report_of, written
from trimwright.viewer.display.setting_steps import steps_of
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.display.trim_looks import LOOKS, TrimLook
from trimwright.viewer.drawings.ink.svg import svg_of
from trimwright.viewer.drawings.packet.packet import bind
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.page.payload import payload_of
from trimwright.viewer.render.compare import compared
from trimwright.viewer.render.meshes import pieces_of

ROOT = Path(__file__).resolve().parents[2]
KIND, HUE = "curb", (120, 94, 240)
LEGS = [
    {"name": "top", "width": 4, "direction": "deck", "fastened": True},
    {"name": "face", "width": 3, "direction": "plumb"},
    {"name": "kick", "width": 0.5, "turn": -45},
]
TABLES = {
    "title": "Made up",
    "roof": {"form": "gable", "length": "24'", "width": "16'", "pitch": "6/12"},
    "trim": {KIND: {"lap": 5}},
    "profile": {"curb strip": {"edges": [KIND], "anchor": "face", "legs": LEGS}},
}


@pytest.fixture
def layout(monkeypatch: pytest.MonkeyPatch) -> Iterator[Layout]:
    monkeypatch.setitem(KINDS, KIND, TrimKind("A", "curb strip", FACED, "hook"))
    monkeypatch.setitem(
        LOOKS, KIND, TrimLook(message(KIND), message("Curb"), "The front edge of a test.", HUE)
    )

    def with_curb(spec: RoofSpec) -> Roof:
        roof = build_roof(spec)
        edges = tuple(
            replace(edge, kind=KIND, name="front curb") if edge.name == "front eave" else edge
            for edge in roof.edges
        )
        return replace(roof, edges=edges)

    monkeypatch.setattr(pipeline, "build_roof", with_curb)
    yield pipeline.build(scene_of(TABLES))


def test_no_line_of_the_program_knows_it() -> None:
    for path in [*ROOT.glob("model/**/*.py"), *ROOT.glob("viewer/**/*.py"), *ROOT.glob("viewer/**/*.js")]:
        assert KIND not in path.read_text(encoding="utf-8"), path


def test_no_line_of_the_page_knows_any_kind_of_edge() -> None:
    """In its modules and styles; sketches of the forms name the sizes of an overhang, which are other things."""
    kinds = "|".join(KINDS)
    for path in [*ROOT.glob("viewer/page/static/**/*.js"), *ROOT.glob("viewer/page/static/**/*.css")]:
        text = path.read_text(encoding="utf-8")
        quoted = re.findall(rf"[\"'](?:{kinds})[\"']|tw-[a-z]+-(?:{kinds})\b", text)
        assert set(quoted) <= {'"high"'}, path  # the high end of a piece


def test_it_is_laid_out_and_checked(layout: Layout) -> None:
    run = layout.run("front curb")
    assert run.code == "A1" and run.spec.lap == 5 and run.section.profile == "curb strip"
    assert [part.mark for part in layout.parts_of("front curb")] == ["A1-1", "A1-2", "A1-3"]
    assert all(layout.screws_of(part.mark) for part in layout.parts_of("front curb"))
    assert depths(layout) == []
    found = check(layout)
    assert not [one for one in found if one.severity == "error"]
    corners = [one for one in found if one.rule == "corner-without-joint"]
    assert {mark[:2] for one in corners for mark in one.pieces} == {"A1", "R1", "R4"}


def test_it_has_its_place_in_the_order_of_setting(layout: Layout) -> None:
    titles = [str(step.title) for step in steps_of(layout)]
    assert titles.index("A1-1") < titles.index("front panels") < titles.index("C1-1")
    first = next(panel for panel in layout.panels_of(0))
    assert any(name.startswith("A1") for name in layout.setting(first.name).over)


def test_it_is_reported(layout: Layout) -> None:
    schema = json.loads((ROOT / "docs/report.schema.json").read_text(encoding="utf-8"))
    report = json.loads(written(report_of(layout, check(layout))))
    assert list(Draft202012Validator(schema).iter_errors(report)) == []
    assert {piece["name"] for piece in report["pieces"]} >= {"A1-1", "A1-2", "A1-3"}
    assert "A1-1" in piece_list(layout)
    assert glb_of(stage_of(layout), layout)


def test_it_is_drawn_in_its_color(layout: Layout) -> None:
    stage = stage_of(layout, check(layout))
    colors = np.concatenate([piece.colors for piece in pieces_of(stage, stage.view("bare"))])
    assert all((colors == tone).all(axis=1).any() for tone in LOOKS[KIND].tones)
    assert LOOKS[KIND].tones[1] in {color for _, color in stage.view("bare").key}
    assert compared({"low": layout}).size[0] > 0


def test_it_is_in_the_packet(layout: Layout) -> None:
    packet = bind(
        layout, check(layout), take_off(layout, layout.scene.buy), imprint_of(layout.scene, "2026-11-20")
    )
    text = "".join(svg_of(page) for page in packet.pages)
    assert "A1-1" in text and "front curb" in text


def test_the_page_is_handed_it(layout: Layout) -> None:
    payload = json.loads(json.dumps(payload_of(layout, check(layout))))
    assert len(payload["apart"]["kinds"][KIND]) == 2
    own = [piece for piece in payload["pieces"] if piece["trim"] == KIND]
    assert {piece["mark"] for piece in own} == {"A1-1", "A1-2", "A1-3"}
    assert all(piece["covered"] and re.fullmatch("#[0-9a-f]{6}", piece["tag"]) for piece in own)
