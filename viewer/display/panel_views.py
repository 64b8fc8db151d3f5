"""Where panels engage: hooked round the lips of eave and rake, and under a cap on their closures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout
from trimwright.model.message import Message, message
from trimwright.model.panels.record import Panel
from trimwright.model.runs import Run

from .camera import looking_at
from .view import HOUSE, METAL, PANELS, ViewPoint

REACH = {"hook": 3.0, "under": 7.0}
"""How much is seen on every side of the edge of the deck, inches."""

TITLES: dict[str, Message] = {
    "eave": message("Panels hooked round the lip of the eave"),
    "rake": message("The last panel hooked round the lip of the rake"),
    "ridge": message("The ridge cap on its closures"),
    "hip": message("The hip cap on its closures"),
    "high": message("The high-side trim on its closures"),
}
"""What the pictures are called, by kind of edge."""

ON_FOAM: dict[str, Message] = {
    "ridge": message("The ridge cap on strips of foam"),
    "hip": message("The hip cap on strips of foam"),
    "high": message("The high-side trim on strips of foam"),
}
"""The same where closures are foam."""

VENTED: dict[str, Message] = {
    "ridge": message("The ridge cap on vented closures"),
    "hip": message("The hip cap on vented closures"),
    "high": message("The high-side trim on vented closures"),
}
"""The same where air goes through the closures."""

LIFT = {"hook": 2.5, "under": 5.0}
"""How far panels, or the cap over them, are lifted off when they are shown apart, inches."""


def panel_views(layout: Layout) -> Iterator[ViewPoint]:
    """Yield, for the first run of each kind of edge, how panels engage there: closed, apart and cut through."""
    seen: set[str] = set()
    for run in layout.runs:
        if run.trim in seen or run.trim not in TITLES or not layout.parts_of(run.name):
            continue
        panels = [panel for panel in layout.panels if run.name in panel.borders]
        if panels:
            seen.add(run.trim)
            yield from _of_run(layout, run, panels)


def _of_run(layout: Layout, run: Run, panels: list[Panel]) -> Iterator[ViewPoint]:
    hooked = len(run.edge.faces) == 1 and run.trim != "high"
    way_of_end = "hook" if hooked else "under"
    reach = REACH[way_of_end]
    u = _place(run, panels[len(panels) // 2])
    along, out, up = run.frame[:3, 0], run.frame[:3, 1], run.frame[:3, 2]
    middle = run.frame[:3, 3] + along * u
    sides = (-reach, reach / 2) if hooked else (-reach, reach)
    corners = [(s, h) for s in sides for h in (-reach / 2, reach / 2)]
    across = np.array([middle + out * s + up * h for s, h in corners])
    points = np.concatenate([across - along * 2 * reach, across + along * 2 * reach])
    eye = out * (1.0 if hooked else 0.45) + up * 0.35 + along * 1.1
    title = _title(layout, run)
    view = ViewPoint(
        f"panels {run.trim}",
        title,
        (looking_at(points, eye, lens=0.3),),
        HOUSE | METAL | PANELS,
        "pieces",
        caution=True,
        subject="panels",
    )
    yield view
    lift = up * LIFT[way_of_end]
    if hooked:
        apart = {panel.name: lift for panel in panels}
    else:
        apart = {part.mark: lift for part in layout.parts_of(run.name)}
    moved = np.concatenate([points, points + lift])
    yield replace(
        view,
        name=f"{view.name} apart",
        title=message("{view}, apart", view=title),
        apart=apart,
        shots=(looking_at(moved, eye, lens=0.3),),
    )
    yield replace(
        view,
        name=f"{view.name} cut through",
        title=message("{view}, cut through", view=title),
        cut=(middle, along),
        shots=(looking_at(across, along + 0.12 * up, margin=1.3, lens=0.2),),
    )


def _title(layout: Layout, run: Run) -> Message:
    """Return what the pictures of a run are called, by what it stands on."""
    closure = next((one for one in layout.closures if one.at == run.name), None)
    if closure is not None and closure.foam:
        return ON_FOAM[run.trim]
    if closure is not None and closure.open_share:
        return VENTED[run.trim]
    return TITLES[run.trim]


def _place(run: Run, panel: Panel) -> float:
    """Return the place along a run at which a panel is looked at: the middle of what it covers there, inches."""
    u: Array = (panel.outline - run.frame[:3, 3]) @ run.frame[:3, 0]
    low, high = max(float(u.min()), 0.0), min(float(u.max()), run.length)
    return (low + high) / 2
