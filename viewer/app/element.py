"""The element that a browser shows: the roof's view with the form beside it."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import Any

from nicegui import ui
from nicegui.element import Element
from nicegui.events import GenericEventArguments

from ..page.page import SCRIPTS as ROOF
from .scripts import STATIC

_ = ui.scene
"""Asking for it once puts the drawing library among the modules that a page may import."""


class WorkspaceElement(
    Element,
    component=STATIC / "element.js",
    esm={"trimwright": str(ROOF), "trimwright-app": str(STATIC / "app")},
):
    """The view and the form of one workspace."""

    def on_act(self, act: Callable[[dict[str, Any]], Awaitable[None]]) -> None:
        """Call ``act`` with whatever the browser asks for."""

        async def acted(event: GenericEventArguments) -> None:
            if isinstance(event.args, dict):
                await act(event.args)

        self.on("act", acted)

    def tell(self, values: dict[str, Any]) -> None:
        """Hand ``values`` to the browser."""
        self.run_method("told", values)


def styles() -> str:
    """Return the styles of roof and form."""
    paths = [ROOF / name for name in ("frame.css", "sheets.css", "before_after.css")]
    return "".join(path.read_text(encoding="utf-8") for path in (*paths, STATIC / "workspace.css"))
