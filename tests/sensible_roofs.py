"""Sensible roofs by number: what people build, laid out with trim that panels hook; no key of the scene is odd."""

from random import Random
from typing import Any

SIDES = {
    "gable": ((20, 48), (16, 32)),
    "hip": ((40, 60), (16, 28)),
    "shed": ((14, 40), (8, 14)),
}
"""Length and width by form, feet: from and to."""


def sensible(number: int) -> dict[str, Any]:
    """Return the scene of one sensible roof, as the tables of its file: 3/12 to 12/12, stock of 10 to 12 ft."""
    chance = Random(f"sensible {number}")
    form = chance.choice(sorted(SIDES))
    length, width = (12 * chance.randint(*ends) for ends in SIDES[form])
    pitch = chance.randint(3, 12)
    roof: dict[str, Any] = {
        "form": form,
        "length": f"{max(length, width)} in",
        "width": f"{width} in",
        "pitch": f"{pitch}/12",
        "wall_height": f"{chance.randint(8, 12)} ft",
        "overhang": {"eave": f"{chance.randint(4, 18)} in", "rake": f"{chance.randint(4, 12)} in"},
    }
    if form != "shed" and chance.random() < 0.3:
        other = min(max(pitch + chance.choice([-2, -1, 1, 2]), 3), 12)
        roof["far_pitch" if form == "gable" else "end_pitch"] = f"{other}/12"
    kind, thickness = chance.choice(
        [
            ("steel", "24 ga"),
            ("steel", "22 ga"),
            ("galvanized", "24 ga"),
            ("copper", "16 oz"),
            ("stainless", "24 ga"),
        ]
    )
    stock = [f"{chance.choice([10, 12])} ft"] if chance.random() < 0.5 else ["10' 6\""]
    return {
        "title": f"Sensible roof {number}",
        "roof": roof,
        "metal": {"kind": kind, "thickness": thickness, "stock": stock},
        "panels": {"cover": chance.choice([12, 16, 18])},
    }
