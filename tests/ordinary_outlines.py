"""Ordinary outlines by number: houses with wings, bays and courtyards, square or not."""

import math
from random import Random
from typing import Any

import numpy as np
from outlines import sharpest

Ring = list[list[float]]

SHAPES = ("ell", "tee", "you", "zee", "plus", "bay", "octagon bay", "courtyard", "skew", "skew ell", "bent")


def ordinary_outline(number: int) -> dict[str, Any]:
    """Return the scene of a roof over one ordinary outline: all by number."""
    chance = Random(number)
    shape = SHAPES[number % len(SHAPES)]
    pitch = chance.randint(3, 14)
    outline, holes = DRAWN[shape](chance)
    roof: dict[str, Any] = {
        "form": "outline",
        "outline": outline,
        "holes": holes,
        "pitch": f"{pitch}/12",
        "wall_height": "40 ft",
        "overhang": {"eave": chance.choice([6, 12, 12, 18]), "rake": chance.choice([4, 8, 12])},
    }
    sides: dict[int, dict[str, Any]] = {}
    for side in gables(outline, chance):
        sides[side] = {"edge": "gable"}
    if chance.random() < 0.35:
        for side in chance.sample(range(1, len(outline) + 1), 2):
            sides.setdefault(side, {"pitch": f"{max(3, pitch + chance.choice([-3, -2, 2, 4]))}/12"})
    roof["sides"] = sides
    return {
        "title": f"Ordinary outline {number}: {shape}",
        "roof": roof,
        "metal": {"kind": chance.choice(["steel", "aluminum", "copper"]), "stock": ["10' 6\""]},
    }


def gables(outline: Ring, chance: Random) -> list[int]:
    """Return sides that are gables: some of those between two outside corners, none beside another one."""
    count = len(outline)
    convex = [_turn(outline[k - 1], outline[k], outline[(k + 1) % count]) > 0 for k in range(count)]
    taken: list[int] = []
    for k in range(count):
        beside = {(k - 1) % count, (k + 1) % count}
        if convex[k] and convex[(k + 1) % count] and chance.random() < 0.3 and not beside & set(taken):
            taken.append(k)
    return [k + 1 for k in taken]


def _turn(a: list[float], b: list[float], c: list[float]) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _feet(chance: Random, low: int, high: int) -> float:
    """Return a length, inches, on some inch."""
    return float(chance.randint(low * 12, high * 12))


def _ell(chance: Random) -> tuple[Ring, list[Ring]]:
    wide, deep = _feet(chance, 30, 50), _feet(chance, 30, 50)
    wing, main = _feet(chance, 10, 22), _feet(chance, 12, 24)
    return [[0, 0], [wide, 0], [wide, main], [wing, main], [wing, deep], [0, deep]], []


def _tee(chance: Random) -> tuple[Ring, list[Ring]]:
    left, wing, right = (_feet(chance, low, high) for low, high in ((6, 16), (10, 20), (6, 16)))
    main, out = _feet(chance, 14, 26), _feet(chance, 8, 20)
    if chance.random() < 0.4:
        right = left
    a, b, c = left, left + wing, left + wing + right
    return [
        [0, 0],
        [c, 0],
        [c, main],
        [b, main],
        [b, main + out],
        [a, main + out],
        [a, main],
        [0, main],
    ], []


def _you(chance: Random) -> tuple[Ring, list[Ring]]:
    one, gap, two = _feet(chance, 12, 20), _feet(chance, 8, 18), _feet(chance, 12, 20)
    main, left, right = _feet(chance, 14, 24), _feet(chance, 8, 20), _feet(chance, 8, 20)
    if chance.random() < 0.4:
        right, two = left, one
    a, b, c = one, one + gap, one + gap + two
    return [
        [0, 0],
        [c, 0],
        [c, main + right],
        [b, main + right],
        [b, main],
        [a, main],
        [a, main + left],
        [0, main + left],
    ], []


def _zee(chance: Random) -> tuple[Ring, list[Ring]]:
    one, two, shift = _feet(chance, 14, 24), _feet(chance, 14, 24), _feet(chance, 6, 12)
    long, other = _feet(chance, 18, 30), _feet(chance, 18, 30)
    return [
        [0, 0],
        [long, 0],
        [long, shift],
        [long + other, shift],
        [long + other, shift + two],
        [long - 48, shift + two],
        [long - 48, one],
        [0, one],
    ] if shift + two > one + 24 else _zee(chance)[0], []


def _plus(chance: Random) -> tuple[Ring, list[Ring]]:
    a, b, c = (_feet(chance, low, high) for low, high in ((6, 14), (12, 22), (6, 14)))
    d, e, f = (_feet(chance, low, high) for low, high in ((6, 14), (12, 22), (6, 14)))
    if chance.random() < 0.4:
        c, d, e, f = a, a, b, a
    x, y = [0, a, a + b, a + b + c], [0, d, d + e, d + e + f]
    return [
        [x[1], y[0]],
        [x[2], y[0]],
        [x[2], y[1]],
        [x[3], y[1]],
        [x[3], y[2]],
        [x[2], y[2]],
        [x[2], y[3]],
        [x[1], y[3]],
        [x[1], y[2]],
        [x[0], y[2]],
        [x[0], y[1]],
        [x[1], y[1]],
    ], []


def _bay(chance: Random) -> tuple[Ring, list[Ring]]:
    """A house with a bay of three sides, its cheeks at 45 degrees or at 30."""
    wide, deep = _feet(chance, 30, 44), _feet(chance, 20, 28)
    left, flat, out = _feet(chance, 6, 12), _feet(chance, 5, 9), _feet(chance, 3, 5)
    aside = round(out * chance.choice([1.0, 1.0, math.tan(math.radians(30))]))
    a, b = left, left + 2 * aside + flat
    return [
        [0, 0],
        [a, 0],
        [a + aside, -out],
        [b - aside, -out],
        [b, 0],
        [wide, 0],
        [wide, deep],
        [0, deep],
    ], []


def _octagon_bay(chance: Random) -> tuple[Ring, list[Ring]]:
    """A house with five sides of an octagon before it."""
    wide, deep, side = _feet(chance, 36, 44), _feet(chance, 22, 28), _feet(chance, 4, 7)
    slant, left = side / math.sqrt(2), _feet(chance, 8, 12)
    x = [left, left + slant, left + slant + side, left + 2 * slant + side]
    return [
        [0, 0],
        [x[0], 0],
        [x[0], -side],
        [x[1], -side - slant],
        [x[2], -side - slant],
        [x[3], -side],
        [x[3], 0],
        [wide, 0],
        [wide, deep],
        [0, deep],
    ], []


def _courtyard(chance: Random) -> tuple[Ring, list[Ring]]:
    west, yard, east = _feet(chance, 14, 20), _feet(chance, 12, 24), _feet(chance, 14, 20)
    south, court, north = _feet(chance, 14, 20), _feet(chance, 12, 24), _feet(chance, 14, 20)
    wide, deep = west + yard + east, south + court + north
    hole = [[west, south], [west, south + court], [west + yard, south + court], [west + yard, south]]
    return [[0, 0], [wide, 0], [wide, deep], [0, deep]], [hole]


def _skew(chance: Random) -> tuple[Ring, list[Ring]]:
    """Four to six sides round the middle of the house, no two square to each other."""
    while True:
        count, turn = chance.randint(4, 6), chance.random() * 6
        angles = [turn + (k + chance.uniform(-0.25, 0.25)) * math.tau / count for k in range(count)]
        ring = [[round(a * 16) / 16 for a in (260 * math.cos(t), 190 * math.sin(t))] for t in angles]
        if sharpest([np.array(ring)]) > math.radians(45):
            return ring, []


def _skew_ell(chance: Random) -> tuple[Ring, list[Ring]]:
    """An L whose wing is not square to the house."""
    ring, _ = _ell(chance)
    lean = chance.uniform(-0.5, 0.5)
    return [[round((x + lean * y) * 16) / 16, y] for x, y in ring], []


def _bent(chance: Random) -> tuple[Ring, list[Ring]]:
    """Two wings that meet at 120 to 165 degrees."""
    turn = math.radians(chance.randint(15, 60))
    deep, one, two = _feet(chance, 16, 24), _feet(chance, 18, 30), _feet(chance, 18, 30)
    way, up = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    inner = [one - deep * math.tan(turn / 2), deep]
    ring = [
        [0, 0],
        [one, 0],
        [one + two * way[0], two * way[1]],
        [one + two * way[0] + deep * up[0], two * way[1] + deep * up[1]],
        inner,
        [0, deep],
    ]
    return [[round(x * 16) / 16 for x in point] for point in ring], []


DRAWN = {
    "ell": _ell,
    "tee": _tee,
    "you": _you,
    "zee": _zee,
    "plus": _plus,
    "bay": _bay,
    "octagon bay": _octagon_bay,
    "courtyard": _courtyard,
    "skew": _skew,
    "skew ell": _skew_ell,
    "bent": _bent,
}
