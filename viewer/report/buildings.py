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
from trimwright.model.edge_kinds import EdgeKind
from trimwright.model.errors import TrimwrightError
from trimwright.model.message import Expanse, Listed, Message, message
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.faces import faces_of_building
from trimwright.model.scene.read import scene_of

from ..display.trim_looks import LOOKS
from ..words.speaker import Speaker

SQUARE_FOOT = 144.0
"""Square inches."""


@dataclass(frozen=True, slots=True)
class Building:
    """One building.

    Attributes:
        building: Its id.
        ready: It can be laid out with trim on every edge but steps.
        why: What keeps it from that; None where nothing does.
        faces: How many faces its roof has.
        area: Of all of them, square feet.
        slopes: Of each, in 12, the flattest first.
        edges: How many edges of each kind it has.
    """

    building: str
    ready: bool
    why: Message | None
    faces: int
    area: float
    slopes: tuple[float, ...]
    edges: Mapping[EdgeKind, int]


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
        why=why,
        faces=len(faces),
        area=round(sum(face.area for face in faces) / SQUARE_FOOT, 2),
        slopes=tuple(sorted(round(12 * math.tan(face.slope), 3) for face in faces)),
        edges=dict(Counter(edge.kind for edge in roof.edges)) if roof is not None else {},
    )


def written(found: Iterable[Building]) -> str:
    """Return the buildings as JSON, in the file's order; what keeps one from being laid out is told in English."""
    told = [asdict(one) | {"why": "" if one.why is None else str(one.why)} for one in found]
    return json.dumps(told, indent=1) + "\n"


def buildings_table(found: Sequence[Building], say: Speaker) -> Table:
    """Return a table of the buildings: first of all whether each can be laid out, and why not."""
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
        rises = dict.fromkeys(round(rise, 1) for rise in one.slopes)
        slopes = ", ".join(say.tape.pitch(math.atan(rise / 12)) for rise in rises)
        edges = ", ".join(say("{count} {kind}", count=n, kind=_called(kind)) for kind, n in one.edges.items())
        ready = say("yes") if one.why is None else say("no: {why}", why=one.why)
        area = say("{area}", area=Expanse(one.area * SQUARE_FOOT))
        table.add_row(one.building, ready, str(one.faces), area, slopes, edges)
    return table


def _called(kind: EdgeKind) -> Message:
    """Return what edges of a kind are called; of a step, which has no trim, its own word."""
    return LOOKS[kind].name if kind in LOOKS else message("step")
