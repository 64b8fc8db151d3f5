"""Scenes by number with panel profiles, closures and trim profiles of their own: sizes all over what may be asked."""

from random import Random
from typing import Any


def odd_forms(number: int) -> dict[str, Any]:
    """Return a scene: a small roof; seams of 1/2 to 3 in, every 8 to 30 in, locks, closures and legs by chance."""
    chance = Random(number)
    form = chance.choice(["gable", "hip", "shed"])
    roof: dict[str, Any] = {
        "form": form,
        "length": f"{chance.randint(12, 30)} ft",
        "width": f"{chance.randint(8, 12)} ft",
        "pitch": f"{chance.randint(2, 18)}/12",
    }
    trim: dict[str, Any] = {}
    profiles: dict[str, Any] = {}
    for kind in ("eave", "rake"):
        if form == "hip" and kind == "rake":
            continue
        if chance.random() < 0.7:
            profiles[f"own {kind}"] = _drip(kind, chance)
            trim[kind] = {"profile": f"own {kind}"}
    closures: dict[str, Any] = {}
    if chance.random() < 0.7:
        closures["own"] = _closure(chance)
        trim["high" if form == "shed" else "ridge"] = {"closure": "own"}
        if form == "hip":
            trim["hip"] = {"closure": "own"}
    scene: dict[str, Any] = {
        "title": f"Odd forms {number}",
        "roof": roof,
        "metal": {
            "kind": "aluminum",
            "thickness": chance.choice([0.0239, 0.032, 0.04]),
            "stock": [f"{chance.randint(8, 20)} ft"],
        },
        "panels": {
            "profile": "own",
            "cover": f"{chance.randint(32, 120) / 4} in",
            "seam": f"{chance.randint(4, 24) / 8} in",
            "laid_from": chance.choice(["left", "right"]),
        },
        "panel_profile": {"own": _lock(chance)},
        "trim": trim,
        "profile": profiles,
        "closure": closures,
    }
    return scene


def _lock(chance: Random) -> dict[str, Any]:
    """Return a panel profile: any lock, its fold and flange wide or narrow, or left out."""
    lock = chance.choice(["single lock", "double lock", "snap lock", "rib"])
    own: dict[str, Any] = {"lock": lock}
    if chance.random() < 0.7:
        own["fold"] = f"{chance.randint(2, 12) / 16} in"
    if lock == "rib" and chance.random() < 0.5:
        own["flange"] = f"{chance.randint(4, 24) / 8} in"
    return own


def _closure(chance: Random) -> dict[str, Any]:
    """Return a kind of closure: a Z, plain or with holes, or a strip."""
    if chance.random() < 0.4:
        return {"form": "strip", "depth": f"{chance.randint(4, 24) / 8} in"}
    if chance.random() < 0.5:
        return {"form": "Z"}
    return {
        "hole": f"{chance.randint(1, 8) / 32} in",
        "apart": f"{chance.randint(4, 32) / 32} in",
    }


def _drip(kind: str, chance: Random) -> dict[str, Any]:
    """Return a trim profile: a top and a face; a lip of any depth or none, a kick, a hem, or none."""
    legs: list[dict[str, Any]] = [
        {"name": "top", "width": f"{chance.randint(6, 20) / 4} in", "direction": "deck", "fastened": True}
    ]
    if chance.random() < 0.4:
        legs.append(
            {"name": "return", "width": f"{chance.randint(4, 20) / 16} in", "turn": 180, "relieved": True}
        )
    legs.append(
        {
            "name": "face",
            "width": f"{chance.randint(4, 24) / 4} in",
            "direction": "plumb" if kind == "eave" else "square",
        }
    )
    if len(legs) == 3:
        legs[-1]["turn"] = -90 if kind == "rake" else None
        legs[-1] = {key: value for key, value in legs[-1].items() if value is not None}
    if chance.random() < 0.6:
        legs.append({"name": "kick", "width": f"{chance.randint(4, 12) / 8} in", "turn": -30})
        if chance.random() < 0.5:
            legs.append(
                {"name": "hem", "width": f"{chance.randint(4, 8) / 16} in", "turn": 180, "relieved": True}
            )
    return {"edges": [kind], "anchor": "face", "legs": legs}
