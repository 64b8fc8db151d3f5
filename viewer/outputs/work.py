"""A scene, worked out: what every output is made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.takeoff.record import Takeoff

from ..display.stage import Stage

if TYPE_CHECKING:
    from ..drawings.paper.sizes import Paper


@dataclass(frozen=True, slots=True, eq=False)
class Work:
    """A scene, worked out.

    Attributes:
        layout: Its layout.
        findings: What is wrong with it.
        takeoff: What to buy for it.
        stage: What is seen of it.
        date: Day of its file, as ``2026-05-31``; empty when it is unknown.
        paper: Size of the packet's pages; None for that which goes with the lengths of the scene.
        views: Names of the views of which there are pictures; None for all of the album.
        earlier: Folder with the outputs of an earlier run, whose pictures are kept where they would come out the same;
            None where there is none.
        cover: PNG file of the finished roof for the packet; None when there is none.
        stills: JPEG pictures by title, for browsers that cannot draw; empty when there are none.
    """

    layout: Layout
    findings: tuple[Finding, ...]
    takeoff: Takeoff
    stage: Stage
    date: str = ""
    paper: Paper | None = None
    views: tuple[str, ...] | None = None
    earlier: Path | None = None
    cover: Path | None = None
    stills: Mapping[str, bytes] | None = None
