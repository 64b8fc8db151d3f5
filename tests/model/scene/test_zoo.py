"""The scenes that ship with the project: all can be read and built, and one is full of mistakes."""

import re
from pathlib import Path

import pytest

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import read_scene

FOLDER = Path(__file__).parents[3] / "scenes"
ZOO = sorted(FOLDER.glob("*.toml"))
MISTAKES = FOLDER / "slip-shed.toml"


def planted() -> set[str]:
    """Return the rules that the comments of that scene name: ``# rule, rule: what is wrong``."""
    rules = re.findall(r"# ((?:[a-z]+-[a-z-]+)(?:, [a-z]+-[a-z-]+)*):", MISTAKES.read_text(encoding="utf-8"))
    return {rule for line in rules for rule in line.split(", ")}


def test_the_zoo_has_every_form_and_both_ways_of_measuring() -> None:
    scenes = [read_scene(path) for path in ZOO]
    assert {scene.roof.form for scene in scenes} >= {"gable", "hip", "shed", "outline"}
    assert {scene.show for scene in scenes} == {"feet", "mm"}
    assert len({scene.title for scene in scenes}) == len(scenes)


@pytest.mark.parametrize("path", ZOO, ids=lambda path: path.stem)
def test_a_scene_of_the_zoo_can_be_built(path: Path) -> None:
    scene = read_scene(path)
    layout = build(scene)
    assert layout.parts
    assert {part.mark for part in layout.parts} >= set(scene.screws.placed)


def test_at_least_a_dozen_mistakes_are_planted() -> None:
    assert len(planted()) >= 12


def test_every_planted_mistake_is_found() -> None:
    found = {finding.rule for finding in check(build(read_scene(MISTAKES)))}
    assert planted() - found == set()


def test_the_net_loft_has_its_short_end_pieces() -> None:
    short = [f for f in check(build(read_scene(FOLDER / "net-loft.toml"))) if f.rule == "short-end-piece"]
    assert len(short) == 4


@pytest.mark.parametrize(
    "name", ["boat-shed", "ice-house", "harbor-office", "bakehouse", "oar-store", "sail-loft"]
)
def test_a_good_scene_has_nothing_wrong_with_it(name: str) -> None:
    findings = check(build(read_scene(FOLDER / f"{name}.toml")))
    assert [str(found.message) for found in findings if found.severity != "note"] == []
