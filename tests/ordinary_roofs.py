"""Ordinary roofs by number: a scene sets the roof, the metal, the stock and the profiles; all else is chosen."""

from random import Random
from typing import Any

from trimwright.model.edge_kinds import KINDS
from trimwright.model.metals import METALS
from trimwright.model.profiles.catalogue import catalogue

SUITING = {
    kind: sorted(name for name, profile in catalogue().items() if kind in profile.edges) for kind in KINDS
}
"""Profiles of the catalogue by kind of edge."""

EDGES = {
    "gable": ("eave", "rake", "ridge"),
    "hip": ("eave", "hip", "ridge"),
    "shed": ("eave", "rake", "high"),
}
"""Kinds of edge that a form has."""


def ordinary(number: int) -> dict[str, Any]:
    """Return the scene of one ordinary roof, as the tables of its file: 2/12 to 18/12, stock of 10 to 20 ft."""
    chance = Random(number)
    form = chance.choice(sorted(EDGES))
    roof: dict[str, Any] = {
        "form": form,
        "length": f"{chance.randint(16 * 12, 60 * 12)} in",
        "width": f"{chance.randint(8 * 12, (20 if form == 'shed' else 36) * 12)} in",
        "pitch": f"{chance.randint(2, 18)}/12",
        "overhang": {kind: f"{chance.randint(4, 24)} in" for kind in ("eave", "rake", "high")},
    }
    if form != "shed" and chance.random() < 0.4:
        roof["far_pitch" if form == "gable" else "end_pitch"] = f"{chance.randint(2, 18)}/12"
    if form == "hip":
        roof["length"] = f"{_long_enough(roof, chance)} in"
    kind = chance.choice(sorted(METALS))
    usual = METALS[kind].thickness
    gauges = [inches for inches in METALS[kind].labels.values() if 0.019 <= inches <= 0.04]
    thickness = chance.choice([usual, *gauges])
    return {
        "title": f"Ordinary roof {number}",
        "roof": roof,
        "metal": {"kind": kind, "thickness": thickness, "stock": [f"{chance.randint(10, 20)} ft"]},
        "trim": {kind: {"profile": chance.choice(SUITING[kind])} for kind in EDGES[form]},
    }


def _long_enough(roof: dict[str, Any], chance: Random) -> int:
    """Return a length of a hip roof, inches, that leaves a ridge of 2 ft or more: no shorter one is ordinary."""
    width, eave = (int(str(length).split()[0]) for length in (roof["width"], roof["overhang"]["eave"]))
    pitch, ends = (
        int(str(slope).split("/")[0]) for slope in (roof["pitch"], roof.get("end_pitch", roof["pitch"]))
    )
    least = (width / 2 + eave) * pitch / ends * 2 + 24 - 2 * eave
    return int(least) + chance.randint(1, 30 * 12)
