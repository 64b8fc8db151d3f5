"""The panels with what closes and holds them: each the sheet that the model folded."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from trimwright.model.layout import Layout

from .body import Body, Kind
from .perforated import holes_of


def panel_bodies(layout: Layout, order: Mapping[str, int]) -> Iterator[Body]:
    """Yield every panel, closure and cleat, each as one body."""
    for panel in layout.panels:
        yield Body(
            "pan", panel.name, panel.solid.vertices, panel.solid.faces, panel.solid.side, order[panel.name]
        )
    for closure in layout.closures:
        solid, side = closure.solid, -closure.solid.side  # its sheet lies back up: paint is out, on the web
        kind: Kind = "foam" if closure.foam else "closure"
        yield Body(
            kind,
            closure.name,
            solid.vertices,
            solid.faces,
            side,
            order[closure.name],
            holes=holes_of(closure, layout),
        )
    for cleat in layout.cleats:
        yield Body(
            "cleat", cleat.mark, cleat.solid.vertices, cleat.solid.faces, cleat.solid.side, order[cleat.mark]
        )


def panel_beside(layout: Layout) -> Mapping[str, str]:
    """Return, for every panel, closure and cleat by name, the panel that it is, stands on or holds."""
    beside = {panel.name: panel.name for panel in layout.panels}
    beside |= {closure.name: closure.panel for closure in layout.closures}
    first: dict[int, str] = {}
    for panel in layout.panels:
        first.setdefault(panel.face, panel.name)
    beside |= {cleat.mark: first[cleat.face] for cleat in layout.cleats if cleat.face in first}
    return beside
