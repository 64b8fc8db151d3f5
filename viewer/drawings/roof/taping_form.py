"""The form that is filled in on the roof: what to tape there, in walking order, with a figure of each face."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.message import Length, Round, Slope, Value
from trimwright.model.roof.record import Roof
from trimwright.model.scene.survey import SurveySpec
from trimwright.model.survey.walk import Stop, Visit, letters, walk

from ...words.speaker import Speaker
from ..ink.drawing import Drawing, Item, Point, Stroke, Words, moved
from ..ink.pdf import pdf_of
from ..ink.style import BODY, FAINT, INK, LARGE, SMALL, SOFT
from ..paper.flow import Block, TableColumn, flow, heading, paragraph, space, table
from ..paper.page import Imprint, body_of, numbered, paged
from ..paper.sizes import Paper, paper_for

FIGURE = 2.5
"""Width of a face's figure with its letters, inches."""

TALLEST = 2.2
"""Of a figure, inches."""

AROUND = 0.28
"""Room for letters and numbers round a face, inches."""


def taping_form(
    roof: Roof, spec: SurveySpec, taped: Mapping[str, float], imprint: Imprint, paper: Paper | None = None
) -> list[Drawing]:
    """Return the pages of the form.

    Args:
        roof: As the form of the scene has it.
        spec: How well it is going to be measured.
        taped: What has been read already, by name; inches or radians.
        imprint: What every page says.
        paper: Its size; when left out, that which goes with the lengths of the scene.
    """
    say, paper = imprint.say, paper or paper_for(imprint.say.tape)
    box = body_of(paper, imprint)
    visits = walk(roof, spec)
    pages = flow(_blocks(roof, visits, taped, box.width, say), box)
    drawn = paged(say("What to tape"), pages, paper, imprint, (say("In walking order"),))
    return [numbered(page, number, len(drawn), say) for number, page in enumerate(drawn, 1)]


def taping_pdf(pages: list[Drawing], imprint: Imprint) -> bytes:
    """Return the form as a PDF."""
    say = imprint.say
    title = say("{title}: what to tape", title=imprint.title)
    return pdf_of(pages, title, subject=say("A form to fill in on the roof"), language=say.language.code)


def _blocks(
    roof: Roof, visits: tuple[Visit, ...], taped: Mapping[str, float], width: float, say: Speaker
) -> Iterator[Block]:
    yield paragraph(
        say(
            "Measure the deck itself, overhangs included, along the slope, from corner to corner of its top edge. Pull "
            "the tape tight, read to {mark}, and write before you move on. For a pitch hold a level {out} out from "
            "the deck and read the drop, at two places. Where it says twice, no other measure tells a "
            "mistake in this one.",
            mark=Length(say.tape.mark),
            out=Round(12, 500),
        ),
        width,
    )
    yield paragraph(
        say(
            "Tie off before you leave the ladder; keep tape and ladder clear of power lines; nobody walks backward "
            "with a tape. What cannot be reached safely stays blank: the roof then keeps what was planned there."
        ),
        width,
        bold=True,
    )
    corners = letters(visits)
    for visit in visits:
        if visit.face is None:
            yield heading(say("Under the roof"))
            yield paragraph(_how_under(say), width)
        else:
            yield heading(say("{face} face", face=roof.faces[visit.face].name).capitalize())
        yield _visit(roof, visit, corners, taped, width, say)
        yield space(0.1)


def _how_under(say: Speaker) -> str:
    """Return how heights and the ways between plumb marks are measured."""
    return say(
        "Of measures that disagree, these tell which is wrong. Plumb each outer corner of the deck down to the ground, "
        "and tape level from mark to mark. For a height sight level from the top of the deck at the eave, and tape "
        "plumb up."
    )


def _visit(
    roof: Roof,
    visit: Visit,
    corners: Mapping[int, str],
    taped: Mapping[str, float],
    width: float,
    say: Speaker,
) -> Block:
    """Return one face: its figure, and beside it the rows to fill in."""
    figure = _figure(roof, visit, corners)
    columns = (
        TableColumn(say("No."), 0.45, bold=True),
        TableColumn(say("What"), 2.0),
        TableColumn(say("From, to"), 0.8),
        TableColumn(say("Planned"), 1.0, right=True),
        TableColumn("", 0.1),
        TableColumn(say("Read"), 1.1),
        TableColumn(say("Again"), 0.9),
    )
    rows = [_row(stop, corners, taped, say) for stop in visit.stops]
    room = width - FIGURE - 0.15
    items: list[Item] = [*figure.items]
    y = 0.0
    for block in table(columns, rows, room):
        items += moved(block.items, (FIGURE + 0.15, y))
        y -= block.height
    return Block(max(figure.height, -y), tuple(items))


def _row(stop: Stop, corners: Mapping[int, str], taped: Mapping[str, float], say: Speaker) -> tuple[str, ...]:
    one = stop.quantity
    pitch = one.kind == "pitch"
    reading = taped.get(one.name)
    return (
        str(stop.number),
        say("{name}, twice", name=one.name) if stop.twice else one.name,
        "" if pitch else say("{a} to {b}", a=corners[one.corners[0]], b=corners[one.corners[1]]),
        _written(stop.value, pitch, say),
        "",
        "" if reading is None else _written(reading, pitch, say),
        "",
    )


def _written(value: float, pitch: bool, say: Speaker) -> str:
    shown: Value = Slope(value)
    return say("{pitch}", pitch=shown) if pitch else say.tape(value)


def _figure(roof: Roof, visit: Visit, corners: Mapping[int, str]) -> Block:
    """Return a face as one sees it before its eave, or the roof from above, lettered and with its measures numbered."""
    if visit.face is None:
        return _plan(roof, visit, corners)
    points = roof.vertices[list(visit.ring)]
    right = (points[1] - points[0]) / np.linalg.norm(points[1] - points[0])
    up = np.cross(roof.faces[visit.face].normal, right)
    flat, height = _to_fit(np.column_stack([(points - points[0]) @ right, (points - points[0]) @ up]))
    at = dict(zip(visit.ring, flat, strict=True))
    ring = tuple((float(x), float(y)) for x, y in flat)
    items: list[Item] = [Stroke(ring, 0.016, INK, closed=True, name="face")]
    crossing = 0
    for stop in visit.stops:
        one, number = stop.quantity, str(stop.number)
        if one.kind == "pitch":
            items.append(_words(number, _up_the_middle(flat), BODY, SOFT))
            continue
        a, b = at[one.corners[0]], at[one.corners[1]]
        aside = np.array([b[1] - a[1], a[0] - b[0]]) / np.linalg.norm(b - a)
        if one.kind == "diagonal":
            items.append(Stroke((_point(a), _point(b)), 0.006, FAINT, name="diagonal"))
            items.append(_words(number, a + (0.2 + 0.1 * crossing) * (b - a) + 0.08 * aside, SMALL, SOFT))
            crossing += 1
        else:
            items.append(_words(number, (a + b) / 2 + 0.12 * aside, SMALL, SOFT))
    for corner, spot, out in zip(visit.ring, flat, _away(flat), strict=True):
        items.append(_words(corners[corner], spot + 0.17 * out, LARGE, INK, bold=True))
    return Block(height, tuple(items))


def _plan(roof: Roof, visit: Visit, corners: Mapping[int, str]) -> Block:
    """Return the roof from above: the ways between plumb marks, and the number of each height where it is taped."""
    at, height = _to_fit(roof.vertices[:, :2])
    items: list[Item] = [
        Stroke(tuple(_point(at[vertex]) for vertex in edge.vertices), 0.01, INK, name="edge")
        for edge in roof.edges
    ]
    middle, crossing = at.mean(axis=0), 0
    for stop in visit.stops:
        number, (a, b) = str(stop.number), at[list(stop.quantity.corners)]
        if stop.quantity.kind == "height":
            items.append(_words(number, b + 0.14 * _unit(middle - b) + [0.0, 0.08], BODY, SOFT))
            continue
        items.append(Stroke((_point(a), _point(b)), 0.006, FAINT, name="between plumb marks"))
        crossing += 1
        aside = 0.08 * _unit(np.array([b[1] - a[1], a[0] - b[0]]))
        items.append(_words(number, a + (0.12 + 0.06 * crossing) * (b - a) + aside, SMALL, SOFT))
    lettered = dict.fromkeys(corner for stop in visit.stops for corner in stop.quantity.corners)
    items += [
        _words(corners[vertex], at[vertex] + 0.17 * _unit(at[vertex] - middle), LARGE, INK, bold=True)
        for vertex in lettered
    ]
    return Block(height, tuple(items))


def _to_fit(flat: Array) -> tuple[Array, float]:
    """Return points, ``(n, 2)``, brought to a figure's size with room round it, and the figure's height, inches."""
    size = np.ptp(flat, axis=0)
    ratio = float(min((FIGURE - 2 * AROUND) / size[0], (TALLEST - 2 * AROUND) / size[1]))
    height = float(size[1]) * ratio + 2 * AROUND
    return (flat - flat.min(axis=0)) * ratio + [AROUND, AROUND - height], height


def _unit(way: Array) -> Array:
    return np.asarray(way / max(float(np.linalg.norm(way)), 1e-9))


def _up_the_middle(flat: Array) -> Array:
    """Return a place in a face clear of where its diagonals cross."""
    low, high = flat[:2].mean(axis=0), flat[2:].mean(axis=0)
    return np.asarray(low + 0.82 * (high - low))


def _away(flat: Array) -> Array:
    """Return the direction out of each corner of a ring, ``(n, 2)`` unit vectors."""
    ways = np.roll(flat, -1, axis=0) - flat
    ways /= np.linalg.norm(ways, axis=1)[:, None]
    sides = np.column_stack([ways[:, 1], -ways[:, 0]])
    out = sides + np.roll(sides, 1, axis=0)
    return np.asarray(out / np.maximum(np.linalg.norm(out, axis=1), 1e-9)[:, None])


def _point(at: Array) -> Point:
    return float(at[0]), float(at[1])


def _words(text: str, at: Array, size: float, color: str, bold: bool = False) -> Words:
    return Words(text, (float(at[0]), float(at[1]) - size / 3), size, "middle", bold=bold, color=color)
