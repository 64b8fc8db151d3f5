"""Scenes to begin with: one of each form, as small as they come; and the zoo, where the repository is at hand."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

_PLAIN = """# {about}
title = "{title}"
unit = "in"

[roof]
form = "{form}"
length = "{length}"
width = "{width}"
pitch = "{pitch}"
wall_height = "8'"

[metal]
kind = "steel"
thickness = "24 ga"
stock = ["10' 6\\""]
"""

PLAIN: Mapping[str, str] = {
    "plain-gable": _PLAIN.format(
        about="Two slopes and two gable ends.",
        title="A gable at Skerry Sound",
        form="gable",
        length="24'",
        width="16'",
        pitch="6/12",
    ),
    "plain-hip": _PLAIN.format(
        about="Four slopes.",
        title="A hip at Skerry Sound",
        form="hip",
        length="28'",
        width="20'",
        pitch="6/12",
    ),
    "plain-shed": _PLAIN.format(
        about="One slope.",
        title="A shed at Skerry Sound",
        form="shed",
        length="16'",
        width="10'",
        pitch="3/12",
    ),
}
"""Texts by name."""

ZOO = Path(__file__).resolve().parents[2] / "scenes"
"""The zoo, where this file lies in the repository."""


@cache
def beginnings() -> Mapping[str, str]:
    """Return the texts of all scenes to begin with, by name."""
    zoo = sorted(ZOO.glob("*.toml")) if ZOO.is_dir() else []
    return {**PLAIN, **{path.stem: path.read_text(encoding="utf-8") for path in zoo}}
