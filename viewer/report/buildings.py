"""What is told of the buildings in a CityJSON file: whether they can be laid out, and what their roofs are made of."""

from __future__ import annotations

import json
import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from rich import box
from rich.table import Table

from trimwright.model.cityjson import City, read_city
from trimwright.model.errors import TrimwrightError
from trimwright.model.message import Listed, Message, message
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.faces import faces_of_building
from trimwright.model.scene.read import scene_of

from ..words.speaker import Speaker

SQUARE_FOOT = 144.0
"""Square inches."""


@dataclass(frozen=True, slots=True)
class Building:
    """One building.

    Attributes:
        building: Its id.
        ready: It can be laid out with trim on every edge but steps.
        why: What keeps it from that; empty where nothing does.
        faces: How many faces its roof has.
        area: Of all of them, square feet.
        slopes: Of each, in 12, the flattest first.
        edges: How many edges of each kind it has.
    """

    building: str
    ready: bool
    why: str
    faces: int
    area: float
    slopes: tuple[float, ...]
    edges: Mapping[str, int]


def buildings_in(file: Path) -> list[Building]:
    """Return what is told of each building of a file.

    Raises:
        SceneError: The file cannot be read, or is no CityJSON.
    """
    city = read_city(file)
    return [_building(city, name) for name in city.buildings()]


def _building(city: City, name: str) -> Building:
    """Return what is told of one building: as much as can be found out before something keeps it from being built."""
    found = faces_of_building(city, name)
    if isinstance(found, Message):
        return _told(name, None, found)
    roof = None
    try:
        scene = scene_of({"title": name[:200], "roof": {"form": "faces", **found}}, "")
        roof = build_roof(scene.roof)
        bare = [edge for edge in build(scene).untrimmed if _kind_of(roof, edge) != "step"]
    except TrimwrightError as error:
        return _told(name, roof, error.problems[0].message)
    if bare:
        return _told(name, roof, message("no trim on the {edges}", edges=Listed(tuple(bare[:4]))))
    return _told(name, roof, None)


def _kind_of(roof: Roof, name: str) -> str:
    return next(edge.kind for edge in roof.edges if edge.name == name)


def _told(name: str, roof: Roof | None, why: Message | None) -> Building:
    """Return the record of one building."""
    faces = roof.faces if roof is not None else ()
    return Building(
        building=name,
        ready=why is None,
        why="" if why is None else Speaker()(why),
        faces=len(faces),
        area=round(sum(face.area for face in faces) / SQUARE_FOOT, 2),
        slopes=tuple(sorted(round(12 * math.tan(face.slope), 3) for face in faces)),
        edges=dict(Counter(edge.kind for edge in roof.edges)) if roof is not None else {},
    )


def written(found: Iterable[Building]) -> str:
    """Return the buildings as JSON, in the file's order."""
    return json.dumps([asdict(one) for one in found], indent=1) + "\n"


def buildings_table(found: Sequence[Building]) -> Table:
    """Return a table of the buildings: first of all whether each can be laid out, and why not."""
    say = Speaker()
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for heading in (
        say("building"),
        say("can be laid out"),
        say("faces"),
        say("area"),
        say("slopes"),
        say("edges"),
    ):
        table.add_column(heading, overflow="fold")
    for one in found:
        slopes = ", ".join(
            f"{slope:g}/12" for slope in dict.fromkeys(round(slope, 1) for slope in one.slopes)
        )
        edges = ", ".join(f"{count} {kind}" for kind, count in one.edges.items())
        ready = say("yes") if one.ready else say("no: {why}", why=one.why)
        table.add_row(one.building, ready, str(one.faces), f"{one.area:,.0f} ft²", slopes, edges)
    return table
