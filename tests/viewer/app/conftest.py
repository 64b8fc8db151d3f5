"""A workspace in a folder of its own, and what it tells."""

from pathlib import Path

import pytest
from workspaces import KEY, Told

from trimwright.viewer.app.folder import Folder
from trimwright.viewer.app.workspace import Workspace


@pytest.fixture
def told() -> Told:
    return Told()


@pytest.fixture
def workspace(tmp_path: Path, told: Told) -> Workspace:
    return Workspace(KEY, Folder(tmp_path), told.append)
