"""The page on the catalogue's profiles, each with its section as it lies on a roof of 6 in 12."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache

import numpy as np

from trimwright.model.edge_kinds import KINDS
from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.profiles.section import Section
from trimwright.model.roof.build import plain_with
from trimwright.model.runs import directions_of, pan_height
from trimwright.model.scene.read import scene_of
from trimwright.model.units import tape

from ..drawings.ink.drawing import Area, Drawing, Item, Stroke, Words
from ..drawings.ink.letters import width_of
from ..drawings.ink.svg import svg_of

SCALE = 0.6
"""Of the drawing to the piece."""

METAL = 0.03
"""How thick the metal is drawn, inches: a sheet at its true thickness would hardly be seen."""

MARGIN, LETTER, GAP = 0.25, 0.14, 0.22
"""White border, height of letters, and the least distance of two labels, inches on the paper."""

INK, WOOD, PAN_GRAY, SCREW, LEADER = "#1d2b33", "#d9c7a5", "#9aa5ab", "#b3401f", "#8a949a"

INTRO = """# Profiles

The catalogue's cross-sections. Each is drawn as it lies on a roof of 6 in 12, in 24 gauge steel bent round 1/32 in,
looking along the run toward its high end, level trim the way it runs. The metal is drawn thicker than it is. Red is
where the screws go; dashed lines under a cap are the panels and the tops of their seams. Angles and developed width
follow the roof's own pitch and the metal, so they are of this example only.

Widths are to the outside of the bends and are common practice, not a standard. A scene can bring
[profiles of its own](scene-format.md).

"""


def profile_pages() -> dict[str, str]:
    """Return the page and every picture by their paths inside ``docs/``."""
    pages = {"profiles.md": INTRO + "\n".join(map(_chapter, catalogue()))}
    for name in catalogue():
        pages[picture_of(name)] = svg_of(section_drawing(name))
    return pages


def picture_of(name: str) -> str:
    """Return the path of a profile's picture inside ``docs/``."""
    return f"profiles/{name.replace(' ', '-')}.svg"


@cache
def _layout(name: str) -> tuple[Layout, Part]:
    """Return a small roof that has the profile, and the first piece of it."""
    edge = catalogue()[name].edges[0]
    layout = build(scene_of({"title": name, "roof": plain_with(edge), "trim": {edge: {"profile": name}}}))
    return layout, next(part for part in layout.parts if part.run.trim == edge)


def _chapter(name: str) -> str:
    """Return a profile's part of the page."""
    profile, section = catalogue()[name], _layout(name)[1].run.section
    edges = " and ".join(f"`{edge}`" for edge in profile.edges)
    lines = [
        f"## {name}",
        "",
        f"![Section of the {name}]({picture_of(name)})",
        "",
        f"For {edges} edges. Developed width here {tape(section.width)}; the `{profile.anchor}` lies "
        f"{'over the far slope' if 'wing' in profile.anchor else 'against the edge of the deck'}.",
        "",
        "| leg | width | turns here | at a lap underneath | screws |",
        "|---|---|---|---|---|",
    ]
    turns = ["", *(_turn(bend.angle) for bend in section.bends)]
    for leg, turn in zip(profile.legs, turns, strict=True):
        cut, screws = "cut away" if leg.relieved else "kept", "yes" if leg.fastened else ""
        lines.append(f"| {leg.name} | {tape(leg.width)} | {turn} | {cut} | {screws} |")
    return "\n".join([*lines, ""])


def _turn(angle: float) -> str:
    away = "away from" if angle > 0 else "toward"
    return f"{round(abs(math.degrees(angle)), 1):g} deg {away} the painted side"


def section_drawing(name: str) -> Drawing:
    """Return the drawing of a profile's section, an inch to the inch, plumb upright."""
    layout, part = _layout(name)
    section, turn = part.run.section, _upright(layout, part)
    metal = [curve @ turn.T for curve in _curves(section)]
    deck = list(_decks(layout, part, turn))
    across = sorted({screw.across for screw in layout.screws_of(part.mark)})
    screws = [pair @ turn.T for pair in (_screw(section, at) for at in across)]
    labels = [
        (
            (section.points[leg.strip] + section.points[leg.strip + 1]) / 2 @ turn.T,
            f"{spec.name}  {tape(spec.width)}",
        )
        for leg, spec in zip(section.legs, catalogue()[name].legs, strict=True)
    ]
    pans = [line @ turn.T for line in _pans(layout, part)]
    return _on_paper(
        f"Section of the {name}", metal, deck, pans, screws, labels, not KINDS[part.run.trim].is_covered
    )


def _upright(layout: Layout, part: Part) -> Array:
    """Return the ``(2, 2)`` turn that stands plumb upright, from ``(out, up)`` of the run."""
    lean = math.pi / 2 - directions_of(layout.roof, part.run.edge)["plumb"]
    cos, sin = math.cos(lean), math.sin(lean)
    return np.array([[cos, sin], [-sin, cos]])


def _curves(section: Section) -> Iterator[Array]:
    """Yield the mid line of every leg and bend, inches; a bend as a smooth curve between its legs."""
    points = section.points
    for leg in section.legs:
        yield points[leg.strip : leg.strip + 2]
    share = np.linspace(0, 1, 13)[:, None]
    for bend, before, after in zip(section.bends, section.legs, section.legs[1:], strict=False):
        first, last = points[bend.first], points[bend.last]
        if bend.first == bend.last:
            continue
        angle = abs(bend.angle)
        pull = np.linalg.norm(last - first) * 2 / 3 * math.tan(angle / 4) / math.sin(angle / 2)
        ways = [np.diff(points[leg.strip : leg.strip + 2], axis=0)[0] for leg in (before, after)]
        one, two = (way / np.linalg.norm(way) * pull for way in ways)
        yield (
            first * (1 - share) ** 3
            + 3 * (first + one) * share * (1 - share) ** 2
            + 3 * (last - two) * share**2 * (1 - share)
            + last * share**3
        )


def _decks(layout: Layout, part: Part, turn: Array) -> Iterator[Array]:
    """Yield a piece of deck under every face of the run's edge, cut plumb there: its section's corners, inches."""
    thick = layout.roof.deck
    for way in _falls(layout, part):
        along = turn @ way
        square = np.array([along[1], -along[0]]) * np.sign(along[0])
        far = along * _reach(part)
        yield np.array([[0.0, 0.0], far, far + square * thick, [0.0, -thick / abs(along[0])]])


def _falls(layout: Layout, part: Part) -> list[Array]:
    """Return the directions from the edge into its faces, ``(out, up)``."""
    angles = directions_of(layout.roof, part.run.edge)
    ways = [-np.array([math.cos(angles["deck"]), -math.sin(angles["deck"])])]
    if "far deck" in angles:
        ways.append(np.array([math.cos(angles["far deck"]), -math.sin(angles["far deck"])]))
    return ways


def _reach(part: Part) -> float:
    """Return how far the deck is drawn, inches."""
    return float(np.abs(part.run.section.points).max()) + 1.0


def _pans(layout: Layout, part: Part) -> Iterator[Array]:
    """Yield where the panels lie under a cap: their pans and the top of their seams."""
    if KINDS[part.run.trim].is_covered:
        return
    pan = pan_height(layout.roof, layout.scene)
    for way in _falls(layout, part):
        up = np.array([-way[1], way[0]])
        up = up if up[1] > 0 else -up
        for height in (pan, pan + layout.scene.panels.seam):
            yield np.array([way * 1.0, way * _reach(part)]) + up * height


def _screw(section: Section, across: float) -> Array:
    """Return the head and the point of a screw, inches."""
    strip = int(np.searchsorted(section.v, across)) - 1
    share = (across - section.v[strip]) / (section.v[strip + 1] - section.v[strip])
    place = section.points[strip] * (1 - share) + section.points[strip + 1] * share
    return np.array([place + section.normals[strip] * 0.12, place - section.normals[strip] * 0.8])


def _on_paper(
    title: str,
    metal: list[Array],
    decks: list[Array],
    pans: list[Array],
    screws: list[Array],
    labels: list[tuple[Array, str]],
    two_sided: bool,
) -> Drawing:
    """Set the parts on a page that is as large as they are, with labels in a column on one side or both."""
    metal, decks, pans, screws = ([part * SCALE for part in parts] for parts in (metal, decks, pans, screws))
    labels = [(place * SCALE, text) for place, text in labels]
    cloud = np.concatenate([*metal, *decks, *pans, *screws])
    low, high = cloud.min(axis=0), cloud.max(axis=0)
    middle = (low[0] + high[0]) / 2
    columns = {
        -1: [label for label in labels if two_sided and label[0][0] < middle],
        1: [label for label in labels if not (two_sided and label[0][0] < middle)],
    }
    wide = {
        side: max((width_of(text, LETTER) for _, text in column), default=-GAP) + GAP
        for side, column in columns.items()
    }
    tall = max(len(column) for column in columns.values()) * GAP
    room = max(0.0, tall - (high[1] - low[1])) / 2
    shift = np.array([MARGIN + wide[-1] - low[0], MARGIN + room - low[1]])
    size = high - low + [2 * MARGIN + wide[-1] + wide[1], 2 * MARGIN + 2 * room]
    items: list[Item] = [Area((_points(ring, shift),), WOOD, "deck") for ring in decks]
    items += [Stroke(_points(ring, shift), 0.012, INK, closed=True, name="deck") for ring in decks]
    items += [Stroke(_points(line, shift), 0.014, PAN_GRAY, (0.08, 0.05), name="panel") for line in pans]
    for side, column in columns.items():
        x = MARGIN + wide[-1] - GAP / 2 if side < 0 else size[0] - MARGIN - wide[1] + GAP / 2
        items += _labels(column, side, x, shift, size[1])
    items += [Stroke(_points(line, shift), METAL, INK, name="metal") for line in metal]
    items += [Stroke(_points(pair, shift), 0.035, SCREW, name="screw") for pair in screws]
    return Drawing(title, (float(size[0]), float(size[1])), tuple(items))


def _labels(
    column: list[tuple[Array, str]], side: int, x: float, shift: Array, tall: float
) -> Iterator[Item]:
    """Yield labels beside the drawing, in the order of their places, none on another, with a line to each place."""
    ordered = sorted(column, key=lambda label: (-label[0][1], label[0][0]))
    heights: list[float] = []
    for place, _ in ordered:
        y = float(place[1] + shift[1])
        heights.append(min([y, *(heights[-1:] and [heights[-1] - GAP])]))
    low = MARGIN / 2
    for k in range(len(heights) - 1, -1, -1):
        heights[k] = max(heights[k], low)
        low = heights[k] + GAP
    for (place, text), y in zip(ordered, heights, strict=True):
        at = tuple((place + shift).tolist())
        yield Stroke(((x - side * 0.05, y), (at[0], at[1])), 0.01, LEADER, name="leader")
        yield Words(
            text, (x, min(y, tall) - LETTER * 0.35), LETTER, "end" if side < 0 else "start", color=INK
        )


def _points(line: Array, shift: Array) -> tuple[tuple[float, float], ...]:
    return tuple((float(x), float(y)) for x, y in line + shift)
