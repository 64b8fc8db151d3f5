"""Editable installs: link build/alias/trimwright/{model,viewer} to the folders of the same name."""

from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class AliasHook(BuildHookInterface):
    """Give the two top-level folders their import names, for editable installs only."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Make the links; a regular wheel gets its names from the ``sources`` table instead."""
        if version != "editable":
            return
        alias = Path(self.root, "build", "alias", "trimwright")
        alias.mkdir(parents=True, exist_ok=True)
        for name in ("model", "viewer"):
            link = alias / name
            if link.is_symlink():
                link.unlink()
            link.symlink_to(Path(self.root, name), target_is_directory=True)
