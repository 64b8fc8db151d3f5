"""A workspace in a folder of its own, and what it tells; the app in a browser, on a laptop and on a phone."""

import shutil
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from workspaces import KEY, Told

from tests.viewer.app.live import Looking, Server
from tests.viewer.conftest import DEVICES
from tests.zoo import SCENES
from trimwright.viewer.app.folder import Folder
from trimwright.viewer.app.workspace import Workspace

IN_THE_FOLDER = ("bakehouse", "cooperage", "net-loft", "sail-loft")

Opened = Callable[[str], Looking]


@pytest.fixture
def told() -> Told:
    return Told()


@pytest.fixture
def workspace(tmp_path: Path, told: Told) -> Workspace:
    return Workspace(KEY, Folder(tmp_path), told.append)


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One server for all who look, each at a scene of their own, in a folder with some of the zoo's."""
    folder = tmp_path_factory.mktemp("scenes")
    for path in SCENES:
        if path.stem in IN_THE_FOLDER:
            shutil.copy(path, folder)
    with Server(folder) as one:
        yield one


@pytest.fixture(scope="session")
def opened(chromium: Browser, server: Server) -> Opened:
    """Return what gives a device its page: opened once, as its scripts are loaded sooner a second time."""

    @cache
    def opened(device: str) -> Looking:
        context = chromium.new_context(**DEVICES[device], reduced_motion="reduce")
        return Looking(context.new_page(), server.url)

    return opened


def looked_at(one: Looking) -> Iterator[Looking]:
    one.afresh().open_form()
    yield one
    assert one.problems == []


@pytest.fixture(params=list(DEVICES))
def looking(request: pytest.FixtureRequest, opened: Opened) -> Iterator[Looking]:
    """The app with its form open, on every device: for what its layout can change."""
    yield from looked_at(opened(request.param))


@pytest.fixture
def phone(opened: Opened) -> Iterator[Looking]:
    """The app with its form open on a phone, for what is the same on every device."""
    yield from looked_at(opened("phone"))


@pytest.fixture
def laptop(opened: Opened) -> Iterator[Looking]:
    """The app with its form open on a laptop, for what is done by keys."""
    yield from looked_at(opened("laptop"))
