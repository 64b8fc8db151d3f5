"""Houses as an open city model has them, by number: LoD2 roofs of many kinds, turned, rounded, and not quite true."""

import json
import math
from collections.abc import Callable
from random import Random
from typing import Any

import numpy as np
from numpy.typing import NDArray

from trimwright.model.roof.build import build_roof
from trimwright.model.scene.read import scene_of

Array = NDArray[np.float64]
Tables = dict[str, Any]

METER = 1 / 0.0254
"""Inches in a meter."""

NOISE = 0.003
"""How far a corner of a face may lie off, on each axis, meters: that of its neighbor and it are within 1/2 in."""


def city_house(number: int) -> tuple[str, str]:
    """Return the kind of a house and the text of a CityJSON file with it alone: all by number."""
    chance = Random(number)
    kind = tuple(DRAWN)[number % len(DRAWN)]
    tables, bends = DRAWN[kind](chance)
    roof = build_roof(scene_of({"title": kind, "roof": {"wall_height": "40 ft", **tables}}).roof)
    faces = [face.outline for face in roof.faces]
    if bends is not None:
        height, times = bends
        at = float(roof.vertices[:, 2].min()) + height
        faces = [part for face in faces for part in bent(face, at, times)]
    return kind, _written(faces, chance)


def bent(face: Array, at: float, times: float) -> list[Array]:
    """Return a face cut along the level line at a height, what is above it so many times as steep."""
    parts = []
    for side in (1.0, -1.0):
        beyond = (face[:, 2] - at) * side
        ring: list[Array] = []
        for k, (here, there) in enumerate(zip(np.roll(beyond, 1), beyond, strict=True)):
            if here * there < 0:
                ring.append(face[k - 1] + (face[k] - face[k - 1]) * here / (here - there))
            if there >= 0:
                ring.append(face[k])
        if max(beyond) > 0:
            steep = times if side > 0 else 1.0
            parts.append(np.array(ring) * [1.0, 1.0, steep] + [0.0, 0.0, at * (1.0 - steep)])
    return parts


def _written(faces: list[Array], chance: Random) -> str:
    """Return the file of a house that stands anywhere, out of true a little, over a piece of ground."""
    turn, noise = chance.uniform(0, math.tau), chance.choice([0.0, 0.0005, NOISE])
    about = np.array([[math.cos(turn), math.sin(turn), 0], [-math.sin(turn), math.cos(turn), 0], [0, 0, 1]])
    rings = [face / METER @ about for face in faces]
    low = min(float(ring[:, 2].min()) for ring in rings)
    for ring in rings:
        ring += np.array([[chance.uniform(-noise, noise) for _ in range(3)] for _ in ring])
    ground = np.array([[0, 0, low - 3], [1, 0, low - 3], [1, 1, low - 3]])
    corners = np.rint(np.concatenate([*rings, ground]) * 1000).astype(int).tolist()
    starts = np.cumsum([0, *(len(ring) for ring in rings)]).tolist()
    boundaries = [[list(range(a, b))] for a, b in zip(starts, [*starts[1:], starts[-1] + 3], strict=True)]
    roof = {
        "type": "MultiSurface",
        "lod": "2.2",
        "boundaries": boundaries,
        "semantics": {
            "surfaces": [{"type": "RoofSurface"}, {"type": "GroundSurface"}],
            "values": [0] * len(rings) + [1],
        },
    }
    return json.dumps(
        {
            "type": "CityJSON",
            "version": "2.0",
            "transform": {"scale": [0.001] * 3, "translate": [chance.uniform(0, 9e5), 4e5, 50.0]},
            "CityObjects": {"house": {"type": "Building", "geometry": [roof]}},
            "vertices": corners,
        }
    )


def _size(chance: Random, least: int, most: int) -> float:
    """Return a length of so many feet, to the inch."""
    return float(chance.randint(least * 12, most * 12))


def _sloped(chance: Random, **tables: Any) -> Tables:
    over = {kind: chance.choice([0, 8, 14]) for kind in ("eave", "rake", "high")}
    return {"pitch": f"{chance.randint(4, 13)}/12", "overhang": over, **tables}


Bends = tuple[float, float] | None
"""How high above the eaves the pitch changes, inches, and how many times as steep it is from there."""


def _gable(chance: Random) -> tuple[Tables, Bends]:
    return _sloped(chance, form="gable", length=_size(chance, 20, 50), width=_size(chance, 16, 34)), None


def _uneven_gable(chance: Random) -> tuple[Tables, Bends]:
    tables, _ = _gable(chance)
    return {**tables, "far_pitch": f"{chance.randint(4, 13)}/12"}, None


def _hip(chance: Random) -> tuple[Tables, Bends]:
    width = _size(chance, 18, 32)
    return _sloped(chance, form="hip", length=width + _size(chance, 5, 25), width=width), None


def _shed(chance: Random) -> tuple[Tables, Bends]:
    tables = _sloped(chance, form="shed", length=_size(chance, 14, 40), width=_size(chance, 8, 18))
    return {**tables, "pitch": f"{chance.randint(2, 9)}/12"}, None


def _ell(chance: Random) -> tuple[Tables, Bends]:
    """An L with a valley, hipped or gabled at either end."""
    wide, deep = _size(chance, 34, 50), _size(chance, 34, 50)
    wing, main = _size(chance, 14, 20), _size(chance, 21, 26)
    ring = [[0, 0], [wide, 0], [wide, main], [wing, main], [wing, deep], [0, deep]]
    sides = {side: {"edge": "gable"} for side in (2, 5) if chance.random() < 0.5}
    return _sloped(chance, form="outline", outline=ring, sides=sides), None


def _tee(chance: Random) -> tuple[Tables, Bends]:
    left, wing, right, out = (_size(chance, low, low + 6) for low in (12, 14, 14, 12))
    main = wing + _size(chance, 4, 9)
    a, b, c = left, left + wing, left + wing + right
    ring = [[0, 0], [c, 0], [c, main], [b, main], [b, main + out], [a, main + out], [a, main], [0, main]]
    sides = {side: {"edge": "gable"} for side in (2, 5, 8) if chance.random() < 0.6}
    return _sloped(chance, form="outline", outline=ring, sides=sides), None


def _cross_gable(chance: Random) -> tuple[Tables, Bends]:
    wing = {"at": _size(chance, 8, 14), "width": _size(chance, 10, 18), "length": _size(chance, 6, 14)}
    tables = _sloped(chance, form="cross gable", length=_size(chance, 40, 54), width=_size(chance, 22, 30))
    return {**tables, "wing": wing}, None


def _skew(chance: Random) -> tuple[Tables, Bends]:
    """Hipped over four sides that are not square to each other."""
    wide, deep = _size(chance, 34, 48), _size(chance, 20, 26)
    a, b, c = (chance.uniform(-40, 40) for _ in range(3))
    ring = [[0, 0], [wide, a], [wide + b, deep + a], [c, deep]]
    return _sloped(chance, form="outline", outline=ring), None


def _curbed(chance: Random, tables: Tables) -> tuple[Tables, Bends]:
    """Return a roof whose pitch changes 4 to 6 ft up: steep below and flat above, or bell-cast."""
    low, high = chance.choice([(18, 6), (16, 5), (14, 4), (5, 10), (4, 9)])
    return {**tables, "pitch": f"{low}/12"}, (_size(chance, 4, 5) * low / 12, high / low)


def _gambrel(chance: Random) -> tuple[Tables, Bends]:
    return _curbed(chance, _gable(chance)[0] | {"width": _size(chance, 24, 34)})


def _mansard(chance: Random) -> tuple[Tables, Bends]:
    return _curbed(chance, _hip(chance)[0] | {"width": 300, "length": 300 + _size(chance, 5, 20)})


def _mansard_ell(chance: Random) -> tuple[Tables, Bends]:
    """A mansard over an L: its breaks meet hips and a valley."""
    tables, _ = _ell(chance)
    tables["outline"] = [[1.4 * x, 1.4 * y] for x, y in tables["outline"]]
    return _curbed(chance, tables)


DRAWN: dict[str, Callable[[Random], tuple[Tables, Bends]]] = {
    "gable": _gable,
    "uneven gable": _uneven_gable,
    "hip": _hip,
    "shed": _shed,
    "ell": _ell,
    "tee": _tee,
    "cross gable": _cross_gable,
    "skew": _skew,
    "gambrel": _gambrel,
    "mansard": _mansard,
    "mansard ell": _mansard_ell,
}
"""Every kind, and what draws the tables of its roof, and where that bends."""
