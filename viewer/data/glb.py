"""The roof as binary glTF: meters, y up, one named node a piece, a screw, a panel and a part of the house."""

from __future__ import annotations

from itertools import groupby
from typing import Any

import numpy as np
import trimesh
from trimesh.visual.material import PBRMaterial

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout, Part

from ..display.body import Body, merged
from ..display.coats import DULL, GLASS, HEADS, Coat, coat_of, gutter_coat
from ..display.color_math import Color, rgb
from ..display.colors import BOARD, BUILT, DECK, SCREW
from ..display.screw_heads import HEAD, foot_of_head
from ..display.stage import Stage

Extras = dict[str, Any]

METERS = 0.0254
"""Meters in an inch."""

TURN: Array = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
"""``(3, 3)``: from z up to y up."""

GROUPS = {
    "trim": "trim",
    "pan": "panel",
    "closure": "closure",
    "foam": "foam",
    "cleat": "cleat",
    "deck": "deck",
    "fascia": "board",
    "wall": "wall",
    "siding": "siding",
    "foundation": "foundation",
    "casing": "casing",
    "door": "door",
    "glass": "glass",
    "gutter": "gutter",
}
"""What a node's name begins with, by kind of body."""


def glb_of(stage: Stage, layout: Layout) -> bytes:
    """Return what is seen of ``layout`` as a file.

    The node of a piece is named by its mark, and its extras say mark, run, trim, hand, profile, order of install,
    from, to, length and stock in inches, and what it laps. Other nodes are ``panel front 3``,
    ``closure ridge, front 3``, ``foam ridge, front 3``, ``cleat E1-K1``, ``screw R1-1 2``,
    ``deck front``, ``board front eave``, ``wall 1`` and ``siding house``.
    """
    scene = trimesh.Scene(metadata={"title": layout.scene.title})
    looks = _materials(layout)
    for (group, name), bodies in _nodes(stage.bodies):
        vertices, faces, _ = merged([(body.vertices, body.faces, body.side) for body in bodies])
        mesh = trimesh.Trimesh(vertices @ TURN.T * METERS, faces, process=False)
        mesh.visual = trimesh.visual.TextureVisuals(material=looks[group])
        extras = (
            _of_piece(layout.part(name), bodies[0].order)
            if group == "trim"
            else {"kind": group, "name": name}
        )
        title = name if group == "trim" or name.startswith(group) else f"{group} {name}"
        scene.add_geometry(mesh, node_name=title, geom_name=title, metadata=extras)
    _add_screws(scene, layout, looks["screw"])
    data: bytes = scene.export(file_type="glb")
    return data


def _nodes(bodies: tuple[Body, ...]) -> list[tuple[tuple[str, str], list[Body]]]:
    """Return the bodies that make up each node."""

    def key(body: Body) -> tuple[str, str]:
        return GROUPS[body.kind], body.name

    return [(name, list(group)) for name, group in groupby(sorted(bodies, key=key), key=key)]


def _of_piece(part: Part, order: int) -> Extras:
    """Return what the node of a piece says about it."""
    return {
        "kind": "trim",
        "mark": part.mark,
        "run": part.run.name,
        "trim": part.run.trim,
        "hand": part.piece.hand or part.run.hand,
        "profile": part.run.section.profile,
        "order": order,
        "from": round(part.low, 6),
        "to": round(part.high, 6),
        "length": round(part.length, 6),
        "stock": round(part.piece.stock, 6),
        "short": part.piece.short,
        "laps": [{"at": end.at, "lies": end.lies, "with": end.others[0]} for end in part.ends.laps],
    }


def _add_screws(scene: trimesh.Scene, layout: Layout, look: PBRMaterial) -> None:
    """Add one head, and a node for every place where it stands."""
    if not layout.screws:
        return
    head = trimesh.creation.cylinder(layout.scene.screws.head / 2 * METERS, HEAD * METERS, sections=6)
    head.visual = trimesh.visual.TextureVisuals(material=look)
    head.metadata.clear()
    scene.geometry["screw"] = head
    for part in layout.parts:
        for number, screw in enumerate(layout.screws_of(part.mark), 1):
            place = trimesh.geometry.align_vectors([0, 0, 1], TURN @ screw.normal)
            place[:3, 3] = TURN @ (foot_of_head(screw, HEAD) + screw.normal * HEAD / 2) * METERS
            told = {"kind": "screw", "piece": screw.mark, "at": round(screw.at, 6)}
            name = f"screw {screw.mark} {number}"
            scene.graph.update(frame_to=name, matrix=place, geometry="screw", metadata=told)


def _materials(layout: Layout) -> dict[str, PBRMaterial]:
    """Return the look of every group of nodes."""
    scene = layout.scene
    trim, panels, walls = (
        rgb(color) for color in (scene.colors.trim, scene.colors.panels, scene.colors.walls)
    )
    return {
        "trim": _material("trim", trim, coat_of(scene, trim)),
        "panel": _material("panels", panels, coat_of(scene, panels)),
        "closure": _material("closures", panels, coat_of(scene, panels)),
        "cleat": _material("cleats", panels, coat_of(scene, panels)),
        "screw": _material("screws", SCREW, HEADS),
        "deck": _material("deck", DECK, DULL),
        "board": _material("boards", BOARD, DULL),
        "wall": _material("walls", walls, DULL),
        "siding": _material("siding", walls, DULL),
        **{kind: _material(kind, BUILT[kind], DULL) for kind in ("foundation", "casing", "door", "foam")},
        "glass": _material("glass", BUILT["glass"], GLASS),
        "gutter": _material("gutters", rgb(scene.colors.gutters or scene.colors.trim), gutter_coat(scene)),
    }


def _material(name: str, color: Color, coat: Coat) -> PBRMaterial:
    """Return a material; a screen's color is made linear, as glTF wants it."""
    parts = np.array(color) / 255
    linear = np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    return PBRMaterial(
        name=name,
        baseColorFactor=[*linear.tolist(), 1.0],
        metallicFactor=coat.metal,
        roughnessFactor=coat.rough,
        doubleSided=True,
    )
