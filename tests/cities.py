"""CityJSON files of the four Vienna roofs, as a text of either kind."""

import json
from pathlib import Path
from typing import Any

ROOFS = json.loads((Path(__file__).parent / "published" / "data" / "vienna_roofs.json").read_text())
TRANSFORM = {"scale": [0.001, 0.001, 0.001], "translate": [100.0, 200.0, 10.0]}


def city_object(number: int, first: int = 0) -> tuple[dict[str, Any], list[list[int]]]:
    """Return a building with its part, and its vertices, counted from ``first``."""
    rings = [face["ring_mm"] for face in ROOFS[number]["faces"]]
    vertices = [[int(x) for x in point] for ring in rings for point in ring]
    boundaries, at = [], first
    for ring in rings:
        boundaries.append([list(range(at, at + len(ring)))])
        at += len(ring)
    roof = {
        "type": "Solid",
        "lod": "2.2",
        "boundaries": [boundaries],
        "semantics": {"surfaces": [{"type": "RoofSurface"}], "values": [[0] * len(boundaries)]},
    }
    footprint = {"type": "MultiSurface", "lod": "0", "boundaries": [boundaries[0]]}
    return {
        f"house-{number}": {"type": "Building", "children": [f"part-{number}"], "geometry": [footprint]},
        f"part-{number}": {"type": "BuildingPart", "parents": [f"house-{number}"], "geometry": [roof]},
    }, vertices


def one_file() -> str:
    """Return all four as one CityJSON object."""
    objects: dict[str, Any] = {}
    vertices: list[list[int]] = []
    for number in range(4):
        found, points = city_object(number, len(vertices))
        objects |= found
        vertices += points
    head = {"type": "CityJSON", "version": "2.0", "transform": TRANSFORM}
    return json.dumps({**head, "CityObjects": objects, "vertices": vertices})


def sequence() -> str:
    """Return all four as a CityJSON text sequence."""
    head = {"type": "CityJSON", "version": "2.0", "transform": TRANSFORM, "CityObjects": {}, "vertices": []}
    lines = [json.dumps(head)]
    for number in range(4):
        objects, vertices = city_object(number)
        feature = {
            "type": "CityJSONFeature",
            "id": f"house-{number}",
            "CityObjects": objects,
            "vertices": vertices,
        }
        lines.append(json.dumps(feature))
    return "\n".join(lines) + "\n"
