"""Mistakes that people make: nearly all are caught or refused, and what passes is listed with the reason."""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from trimwright.model.checks.run import check
from trimwright.model.errors import TrimwrightError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from, scene_of
from trimwright.model.scene.schema import Scene

DATA = tomllib.loads(Path(__file__).with_name("mistakes.toml").read_text(encoding="utf-8"))
HOUSES = DATA["house"]
MISTAKES = [one for kind in ("tape", "pencil", "keyboard") for one in DATA[kind]["mistake"]]


@cache
def findings_of(house: str) -> frozenset[str]:
    """Return the rules that speak of a house as it should be."""
    return frozenset(finding.rule for finding in check(build(scene_from(HOUSES[house]))))


def rake(kick: float = -45, top: float = 4, face: float = 3.5, anchor: str = "face", **other: Any) -> Any:
    """Return a rake trim of one's own, by what is drawn of it."""
    legs = [
        {"name": "top", "width": top, "direction": "deck"},
        {
            "name": "return",
            "width": other.get("return", 1),
            "turn": 180,
            "relieved": other.get("relieved", True),
        },
        {"name": "face", "width": face, "direction": "square"},
        {"name": "kick", "width": 0.75, "turn": kick},
    ]
    if other.get("swapped"):
        legs[1], legs[3] = legs[3] | {"turn": 180}, legs[1]
    fastened = other.get("fastened", "top")
    drawn = [leg | ({"fastened": True} if leg["name"] == fastened else {}) for leg in legs]
    trim = {"rake": {"profile": "own"}} if other.get("used", True) else {}
    return {"trim": trim, "profile": {"own": {"edges": ["rake"], "anchor": anchor, "legs": drawn}}}


def planted(one: dict[str, Any]) -> Scene:
    """Return a house with one mistake.

    Raises:
        TrimwrightError: It is refused.
    """
    text = HOUSES[one.get("house", "gable")]
    if "old" in one:
        return scene_from(text.replace(one["old"], one["new"]))
    tables = tomllib.loads(text) | (rake(**one["profile"]) if "profile" in one else {})
    for path, value in one.get("set", {}).items():
        *way, last = path.split("/")
        at = tables
        for name in way:
            at = at.setdefault(name, {})
        at[last] = value
    return scene_of(tables)


@pytest.mark.parametrize("one", MISTAKES, ids=lambda one: one["says"])
def test_a_mistake_is_caught_by_the_rule_that_is_named_or_refused(one: dict[str, Any]) -> None:
    try:
        found = {finding.rule for finding in check(build(planted(one)))}
        found -= findings_of(one.get("house", "gable"))
    except TrimwrightError:
        found = {"refused"}
    if one["by"] == "passes":
        assert one["why"] and not found
    else:
        assert one["by"] in found


def test_nearly_all_mistakes_are_caught() -> None:
    passed = [one["says"] for one in MISTAKES if one["by"] == "passes"]
    assert len(MISTAKES) >= 100
    assert all(one["old"] in HOUSES[one.get("house", "gable")] for one in MISTAKES if "old" in one)
    assert len({one["says"] for one in MISTAKES}) == len(MISTAKES)
    assert len(passed) <= 0.05 * len(MISTAKES)
