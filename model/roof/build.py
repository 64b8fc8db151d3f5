"""From what the scene says of a roof to its faces and edges."""

from __future__ import annotations

import math
from functools import cache

from pydantic import TypeAdapter

from ..edge_kinds import EdgeKind
from ..errors import GeometryError, Problem
from ..message import Fine, Length, Message, message
from ..scene.faces import FacesSpec
from ..scene.outline import OutlineSpec
from ..scene.roof import CrossGableSpec, GableSpec, HipSpec, RoofSpec, ShedSpec
from ..tolerances import POINT
from . import forms
from .edges import roof_from_faces
from .measured import measured_roof
from .outline import outline_roof
from .record import Edge, Roof
from .walls import walls_under

SHORTEST = 6.0
"""On edges below 6 in the cuts of both corners, each about 3 in long, would meet. A gable, hip or shed that has one is
refused; over an outline it stays bare, since two ridges may come out almost at one height anywhere."""

WING = 6.0
"""How wide the wing of a usual cap is, inches: over its width the cuts at both ends of a ridge between hips draw in."""

FREE = 4.0
"""How much of such a ridge's free edge is left between the two cuts at the least, inches: room for two screws."""

IN_LINE = math.cos(math.radians(44.0))
"""A hip that goes on more nearly in line with the ridge than on slopes of one pitch."""

SHORTEST_IN_LINE = 20.0
"""So long a ridge must be between such hips, inches: twice the usual lap, and the cuts."""

ALMOST_IN_LINE = math.cos(math.radians(12.0))
"""A hip that goes on almost straight from the ridge: its cap and the ridge's lie over the same closures."""

SHORTEST_ALMOST_IN_LINE = 30.0
"""So long a ridge must be between those, inches: what lies between the laps needs closures of its own."""

SHORTEST_SLOPING = 17.0
"""The same for hips and valleys, whose ends are cut at an angle over the width of a wing."""

SHORTEST_RIDGE = 8.0
"""The same for ridges over an outline: both cuts of a wing there, and an inch for a screw between them."""

LEAST_BEND = math.radians(12)
"""The least change of pitch for an apron: below it lies above the lower panels only far from the line of the break."""

_HOUSE = {"length": 144, "width": 120, "pitch": "6/12"}
PLAIN: dict[str, dict[str, object]] = {
    "gable": _HOUSE,
    "hip": _HOUSE,
    "shed": _HOUSE,
    "cross gable": {**_HOUSE, "length": 288, "width": 240, "wing": {"at": 96, "width": 96, "length": 96}},
    "outline": {
        "outline": [[0, 0], [240, 0], [240, 120], [120, 120], [120, 240], [0, 240]],
        "sides": {2: {"edge": "gable"}, 5: {"edge": "gable"}},
        "pitch": "6/12",
    },
}
"""Keys that make a plain roof of each form, inches."""


def build_roof(spec: RoofSpec) -> Roof:
    """Return the roof that the scene asks for.

    Raises:
        GeometryError: Sizes that make no roof: an eave in the ground, an edge too short to trim.
    """
    if isinstance(spec, OutlineSpec):
        return outline_roof(spec)
    if isinstance(spec, CrossGableSpec):
        return outline_roof(spec.outlined)
    if isinstance(spec, FacesSpec):
        return measured_roof(spec)
    roof = _formed(spec)
    short = min(roof.edges, key=lambda edge: edge.length - least_length(roof, edge))
    least = least_length(roof, short)
    if short.length < least - POINT:
        raise GeometryError(Problem(_too_short(short, least, spec), ("roof",)))
    return roof


def least_length(roof: Roof, edge: Edge) -> float:
    """Return how long an edge must be for its trim, inches: between two hips more than elsewhere.

    There a cap is mitered on each face to the line that halves the angle between ridge and hip. Where ridge and hip
    are nearly in line, the cap laps on along the hip.
    """
    if edge.kind != "ridge":
        return SHORTEST
    ends = [
        [
            float(way @ (hip.end - hip.start)) / hip.length
            for hip in roof.edges
            if hip.kind == "hip" and hip.vertices[1] == at
        ]
        for at, way in zip(edge.vertices, (edge.direction, -edge.direction), strict=True)
    ]
    if not all(ends):
        return SHORTEST
    nearest = [max(own) for own in ends]
    if max(nearest) > IN_LINE:
        return SHORTEST_ALMOST_IN_LINE if max(nearest) > ALMOST_IN_LINE else SHORTEST_IN_LINE
    return sum(WING * math.sqrt((1.0 - near) / (1.0 + near)) for near in nearest) + FREE


def _formed(spec: GableSpec | HipSpec | ShedSpec) -> Roof:
    """Return a gable, hip or shed roof.

    Raises:
        GeometryError: An eave in the ground.
    """
    form = form_of(spec)
    low = min(float(plane.moved(-spec.deck).lift(form.deck)[:, 2].min()) for plane in form.planes)
    if low <= 0:
        told = message(
            "the eave comes out {depth} below the ground. "
            "Give more roof.wall_height, or less roof.overhang.eave, roof.pitch or roof.deck.",
            depth=Length(-low),
        )
        raise GeometryError(Problem(told, ("roof",)))
    if isinstance(spec, HipSpec) or spec.break_at is None or spec.upper_pitch is None:
        return roof_from_faces(forms.faces(form), spec.deck, forms.walls(form, spec.deck))
    _refuse_break(spec, spec.break_at, spec.upper_pitch)
    strips = forms.broken(form, forms.Break(spec.break_at, spec.upper_pitch))
    faces = [face for strip in strips for face in forms.faces(strip)]
    under = [plane.moved(-spec.deck) for strip in strips for plane in strip.planes]
    walls = walls_under([form.walls], faces, [()] * len(faces), under)
    return roof_from_faces(faces, spec.deck, walls)


def _refuse_break(spec: GableSpec | ShedSpec, at: float, pitch: float) -> None:
    """Refuse a change of pitch that is none, or that lies beyond the ridge or the high wall.

    Raises:
        GeometryError: Says what would do.
    """
    if pitch in spec.slopes[:-1]:
        told = message("it is the pitch below the break too; give another, or leave it and break_at out")
        raise GeometryError(Problem(told, ("roof", "upper_pitch")))
    most = spec.width / 2 if isinstance(spec, GableSpec) else spec.width
    if at > most - SHORTEST:
        told = message(
            "the pitch changes {at} in from the wall, and the upper slope begins {most} in at the most; give less",
            at=Length(at),
            most=Length(most - SHORTEST),
        )
        raise GeometryError(Problem(told, ("roof", "break_at")))


MOST_RISE = math.radians(6)
"""The most that a break with an apron rises along itself: on a steeper one water runs along the apron, not over it."""


def is_long_enough(edge: Edge) -> bool:
    """Return whether trim can be laid along an edge."""
    least = {"hip": SHORTEST_SLOPING, "valley": SHORTEST_SLOPING, "ridge": SHORTEST_RIDGE}
    return edge.length >= least.get(edge.kind, SHORTEST)


def takes_trim(edge: Edge) -> bool:
    """Return whether trim is laid along an edge, if its kind has any: a break is nearly level, and bends far enough."""
    bends = abs(math.pi - edge.dihedral) >= LEAST_BEND and edge.slope <= MOST_RISE
    return is_long_enough(edge) and (edge.kind != "break" or bends)


def is_bridged(edge: Edge) -> bool:
    """Return whether an edge between two slopes is so short that the trim at its two ends makes up one corner."""
    return edge.kind in ("hip", "ridge", "valley") and not is_long_enough(edge)


def gathered(roof: Roof) -> list[int]:
    """Return for each vertex the one that stands for it: for all that short edges join to one corner, the same."""
    one_of = list(range(len(roof.vertices)))
    for edge in filter(is_bridged, roof.edges):
        first, last = (one_of[vertex] for vertex in edge.vertices)
        one_of = [first if one == last else one for one in one_of]
    return one_of


def plain_with(kind: EdgeKind) -> dict[str, object]:
    """Return the keys of a plain roof that has a kind of edge, its form among them."""
    broken = {"break_at": 36, "upper_pitch": "2/12"} if kind == "break" else {}
    form = "gable" if broken else next(form for form in PLAIN if kind in kinds_of_edge(form))
    return {"form": form, **PLAIN[form], **broken}


@cache
def kinds_of_edge(form: str) -> tuple[EdgeKind, ...]:
    """Return the kinds of edge that a plain roof of this form has, in the order in which their trim is set."""
    spec = TypeAdapter[RoofSpec](RoofSpec).validate_python({"form": form, **PLAIN[form]})
    return tuple(dict.fromkeys(edge.kind for edge in build_roof(spec).edges))


def form_of(spec: GableSpec | HipSpec | ShedSpec) -> forms.Form:
    """Return the planes and plan of the roof that the scene asks for."""
    over = spec.overhang
    match spec:
        case GableSpec():
            pitches = (spec.pitch, spec.pitch if spec.far_pitch is None else spec.far_pitch)
            _refuse_apart(spec, pitches)
            return forms.gable(
                spec.length, spec.width, pitches, spec.wall_height, over.eave, over.rake, spec.far_wall_height
            )
        case HipSpec():
            pitches = (spec.pitch, spec.pitch if spec.end_pitch is None else spec.end_pitch)
            return forms.hip(spec.length, spec.width, pitches, spec.wall_height, over.eave)
        case ShedSpec():
            return forms.shed(
                spec.length, spec.width, spec.pitch, spec.wall_height, over.eave, over.rake, over.high
            )


def _refuse_apart(spec: GableSpec, pitches: tuple[float, float]) -> None:
    """Refuse walls so unlike in height that the two slopes do not meet over the house.

    Raises:
        GeometryError: Says between which heights the back wall may be.
    """
    if spec.far_wall_height is None:
        return
    least = spec.wall_height - spec.width * math.tan(pitches[1])
    most = spec.wall_height + spec.width * math.tan(pitches[0])
    if not least < spec.far_wall_height < most:
        told = message(
            "the two slopes do not meet over the house; give more than {least} and less than {most}",
            least=Length(max(least, 0.0)),
            most=Length(most),
        )
        raise GeometryError(Problem(told, ("roof", "far_wall_height")))


def _too_short(edge: Edge, least: float, spec: GableSpec | HipSpec | ShedSpec) -> Message:
    """Return what refuses an edge that corners would eat up, with every way out that the form has."""
    length = Fine(min(edge.length, least - 0.001))  # never written as long as is asked for
    if isinstance(spec, HipSpec) and spec.end_pitch in (None, spec.pitch):
        return message(
            "the {edge} comes out {length} long, and trim needs {least} or more. Change roof.length, roof.width "
            "or a pitch, or make length and width equal for a roof without a ridge.",
            edge=edge.name,
            length=length,
            least=Fine(math.ceil(least * 16 - POINT) / 16),
        )
    return message(
        "the {edge} comes out {length} long, and trim needs {least} or more. "
        "Change roof.length, roof.width or a pitch.",
        edge=edge.name,
        length=length,
        least=Fine(math.ceil(least * 16 - POINT) / 16),
    )
