"""The scenes of the zoo: right ones are clean, and the one with planted mistakes is caught at every one of them."""

import re
from pathlib import Path

import pytest

from trimwright.model.checks.run import RULES, check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import read_scene

SCENES = Path(__file__).parents[3] / "scenes"
PLANTED = SCENES / "slip-shed.toml"
KNOWN = {"net-loft": {"short-end-piece"}}
"""What a right scene shows on purpose."""


@pytest.mark.parametrize("path", sorted(set(SCENES.glob("*.toml")) - {PLANTED}), ids=lambda path: path.stem)
def test_a_right_scene_is_clean_but_for_what_it_shows_on_purpose(path):
    found = check(build(read_scene(path)))
    assert {f.rule for f in found if f.accepted is None and f.severity != "note"} == KNOWN.get(
        path.stem, set()
    ), [str(f.message) for f in found]


def test_every_planted_mistake_is_caught_by_the_rules_named_beside_it_and_by_no_others():
    names = {rule.RULE for rule in RULES}
    comments = re.findall(r"#\s*([a-z-]+(?:, [a-z-]+)*):", PLANTED.read_text(encoding="utf-8"))
    planted = {name for comment in comments for name in comment.split(", ")} & names
    assert len(planted) >= 12
    assert {finding.rule for finding in check(build(read_scene(PLANTED)))} == planted
