"""A workspace acted on without a browser."""

from collections.abc import Awaitable, Callable
from typing import Any

from loops import finish

from trimwright.viewer.app.workspace import Workspace

KEY, OTHER = "0" * 16, "1" * 16
PITCH = ["roof", "pitch"]


class Told(list[dict[str, Any]]):
    """Everything that a workspace told."""

    @property
    def state(self) -> dict[str, Any]:
        return [values for values in self if "form" in values][-1]

    def of(self, name: str) -> Any:
        return [values[name] for values in self if name in values][-1:]


def run(*steps: Callable[[], Awaitable[None]]) -> None:
    async def go() -> None:
        for step in steps:
            await step()

    finish(go())


def acts(workspace: Workspace, *whats: dict[str, Any]) -> None:
    run(*[lambda what=what: workspace.act(what) for what in whats])


def change(path: list[Any], value: str, **more: str) -> dict[str, Any]:
    return {"do": "change", "path": path, "value": value, **more}
