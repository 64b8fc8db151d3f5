"""Scenes to begin with: one of each form, as small as they come; and the zoo, where the repository is at hand."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path


def _plain(about: str, title: str, form: str, length: str, width: str, pitch: str) -> str:
    """Return the text of a scene of one form that asks for no more than it must."""
    return f"""# {about}
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
    "plain-gable": _plain(
        "Two slopes and two gable ends.", "A gable at Skerry Sound", "gable", "24'", "16'", "6/12"
    ),
    "plain-hip": _plain("Four slopes.", "A hip at Skerry Sound", "hip", "28'", "20'", "6/12"),
    "plain-shed": _plain("One slope.", "A shed at Skerry Sound", "shed", "16'", "10'", "3/12"),
}
"""Texts by name."""

ZOO = Path(__file__).resolve().parents[2] / "scenes"
"""The zoo, where this file lies in the repository."""


@cache
def beginnings() -> Mapping[str, str]:
    """Return the texts of all scenes to begin with, by name."""
    zoo = sorted(ZOO.glob("*.toml")) if ZOO.is_dir() else []
    return {**PLAIN, **{path.stem: path.read_text(encoding="utf-8") for path in zoo}}
