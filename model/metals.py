"""Metals: how they bend, grow and are fastened, each fact with its source."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .data_files import tables_beside
from .message import Message, message
from .source import Source, source_of


@dataclass(frozen=True, slots=True)
class Metal:
    """A metal that trim is made of.

    Attributes:
        kind: Its name in a scene.
        title: Its name in a sentence.
        thickness: The usual thickness, inches.
        thickness_source: Where ``thickness`` comes from.
        color: The usual color of its painted or bare side, ``#rrggbb``; made up.
        bend: Factor of the thickness in the length of a bend.
        bend_source: Where ``bend`` comes from.
        expansion: Growth for each degree Fahrenheit, as a part of the length.
        expansion_source: Where ``expansion`` comes from.
        density: Pounds a cubic inch.
        density_source: Where ``density`` comes from.
        labels: Thickness in inches by gauge, or by ounces a square foot.
        labels_source: Where ``labels`` come from.
        fasteners: Metals of the fasteners that suit it, the usual one first.
        fasteners_source: Where ``fasteners`` come from.
        patina: Colors it takes bare in the weather, from new to old; empty when it keeps its own. Made up.
    """

    kind: str
    title: Message
    thickness: float
    thickness_source: Source
    color: str
    bend: float
    bend_source: Source
    expansion: float
    expansion_source: Source
    density: float
    density_source: Source
    labels: Mapping[str, float]
    labels_source: Source
    fasteners: tuple[str, ...]
    fasteners_source: Source
    patina: tuple[str, ...]

    def label(self, thickness: float) -> str | None:
        """Return the gauge or weight that ``thickness``, inches, is sold under; None when it has none."""
        for name, inches in self.labels.items():
            if abs(inches - thickness) < 5e-5:
                return name
        return None

    def growth(self, length: float, swing: float) -> float:
        """Return by how much ``length``, inches, changes over ``swing`` degrees Fahrenheit, inches."""
        return length * self.expansion * swing


def bend_length(metal: Metal, thickness: float, radius: float, angle: float) -> float:
    """Return the length of flat metal that goes into a bend, inches.

    Args:
        metal: Its bend factor counts.
        thickness: Of the sheet, inches.
        radius: Inside the bend, inches.
        angle: Bent through, radians; its sign does not matter.

    Source:
        *Machinery's Handbook*, 31st ed., p. 1421: (factor x T + 1.57 R) for 90 degrees, in proportion for
        other angles. The print's 1.57 is kept, so that its worked example comes out to the last digit.
    """
    return (metal.bend * thickness + 1.57 * radius) * math.degrees(abs(angle)) / 90


def _read() -> Mapping[str, Metal]:
    """Read the metals from the data beside this file."""
    raw = tables_beside(__file__, "metals.toml")
    metals = {}
    for kind, facts in raw.items():
        cited = {key: source_of(**value) for key, value in facts.items() if key.endswith("_source")}
        lists = {key: tuple(facts[key]) for key in ("fasteners", "patina")}
        metals[kind] = Metal(
            **{"kind": kind, **facts, **cited, **lists, "labels": MappingProxyType(facts["labels"])}
            | {"title": Message(facts["title"])}
        )
    return MappingProxyType(metals)


METALS: Mapping[str, Metal] = _read()
"""Every metal by its kind."""

METAL_WORDS: Mapping[str, Message] = {
    "steel": message("steel"),
    "galvanized": message("galvanized"),
    "aluminum": message("aluminum"),
    "copper": message("copper"),
    "zinc": message("zinc"),
    "stainless": message("stainless"),
    "brass": message("brass"),
    "bronze": message("bronze"),
}
"""Every metal of trim and of screws."""
