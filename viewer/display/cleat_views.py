"""How continuous cleats lap: closed, and with the length on top lifted off, so that what is cut away below is seen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from trimwright.model.joints.end import End
from trimwright.model.layout import Layout
from trimwright.model.message import message
from trimwright.model.panels.cleats import Cleat

from .camera import looking_at
from .notes import OFF, Label
from .view import HOUSE, LEFT_OFF, METAL, ViewPoint

REACH = 3.0
"""How much of each cleat is seen beside the lap, inches."""

LIFT = 2.5
"""How far the length on top is lifted off when they are shown apart, inches."""


def cleat_views(layout: Layout) -> Iterator[ViewPoint]:
    """Yield the first lap of continuous cleats as it is set and apart; none where no cleats lap."""
    found = next(((one, end) for one in layout.cleats for end in one.laps if end.lies == "over"), None)
    if found is not None:
        yield from _of_lap(*found)


def _of_lap(over: Cleat, end: End) -> Iterator[ViewPoint]:
    """Yield the lap at an end of the length on top."""
    (under,) = end.others
    frame = over.placement[:3]
    along, out, up = frame[:, 0], frame[:, 1], frame[:, 2]
    at = end.inward((end.lap or 0.0) / 2)
    section = over.sheet.section
    middle = frame[:, 3] + along * at + up * float(section.points[0, 1])
    half = (end.lap or 0.0) / 2 + REACH
    points = np.array(
        [middle + along * u + out * s + up * h for u in (-half, half) for s in (-2, 1) for h in (-1, 1)]
    )
    way = along * (1.0 if end.at == "low" else -1.0)
    screw = min(over.points, key=lambda point: float(np.linalg.norm(point - middle)))
    labels = tuple(
        Label(text, (point + up * (OFF + section.thickness))[None], up[None], "note", 6)
        for text, point in (
            (message("{mark}, on top", mark=over.mark), middle + way * half * 0.7),
            (message("one screw through both"), screw),
            (
                message("{mark}, its folded edge cut away under the lap", mark=under),
                middle - way * half * 0.7,
            ),
        )
    )
    eye = out * 1.0 + up * 0.55 + along * (0.5 if end.at == "low" else -0.5)
    view = ViewPoint(
        f"cleat lap {over.mark}",
        message("Lap of the continuous cleats: {run}", run=over.at),
        (looking_at(points, eye, lens=0.3),),
        HOUSE | METAL | {"cleat"},
        "pieces",
        notes=(LEFT_OFF,),
        focus=frozenset({over.mark, under}),
        labels=labels,
        caution=True,
        subject="lap",
    )
    yield view
    lift = up * LIFT
    yield replace(
        view,
        name=f"{view.name} apart",
        title=message("{view}, apart", view=view.title),
        apart={over.mark: lift},
        shots=(looking_at(np.concatenate([points, points + lift]), eye, lens=0.3),),
        labels=tuple(
            label if label is labels[-1] else replace(label, points=label.points + lift) for label in labels
        ),
    )
