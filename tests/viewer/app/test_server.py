"""The page of a browser without a browser: every client has a workspace of its own, and acts reach it."""

import asyncio
import subprocess
import sys
from pathlib import Path

import httpx
import pytest
from loops import finish
from nicegui.testing import User, user_simulation

from trimwright.viewer.app import server
from trimwright.viewer.app.beginnings import PLAIN
from trimwright.viewer.app.element import WorkspaceElement
from trimwright.viewer.app.folder import LARGEST, Folder
from trimwright.viewer.app.workspace import Workspace


@pytest.fixture(autouse=True)
def no_workspaces() -> None:
    server.workspaces.clear()


def only_workspace() -> Workspace:
    (workspace,) = server.workspaces.values()
    return workspace


def test_what_the_form_asks_reaches_the_workspace(tmp_path: Path) -> None:
    (tmp_path / "loft.toml").write_text(PLAIN["plain-shed"])

    async def go() -> None:
        async with user_simulation(root=lambda: server.page_for(Folder(tmp_path), "loft")) as user:
            await user.open("/")
            view = user.find(WorkspaceElement)
            view.trigger("act", {"do": "ready"})
            view.trigger("act", {"do": "change", "path": ["roof", "pitch"], "value": "4/12"})
            view.trigger("act", "nonsense")
            workspace = only_workspace()
            for _ in range(300):
                await asyncio.sleep(0.05)
                if workspace.result and workspace.text == workspace.answered:
                    break
            assert workspace.name == "loft" and 'pitch = "4/12"' in workspace.text
            assert workspace.result is not None and workspace.result.layout.scene.roof.form == "shed"

    finish(go())


def test_a_working_copy_is_taken_up_by_its_key_but_only_by_one(tmp_path: Path) -> None:
    folder, key = Folder(tmp_path), "a" * 16
    folder.keep(key, "shed", PLAIN["plain-shed"])

    async def go() -> None:
        async with user_simulation(root=lambda: server.page_for(folder, None)) as user:
            await ready(user, key)
            assert only_workspace().key == key and only_workspace().name == "shed"
            await ready(user, key)
            one, two = server.workspaces.values()
            assert one.key == key != two.key and two.text == one.text == PLAIN["plain-shed"]

    finish(go())


def test_a_page_that_is_loaded_again_has_its_scene_and_its_history(tmp_path: Path) -> None:
    async def go() -> None:
        async with user_simulation(root=lambda: server.page_for(Folder(tmp_path), None)) as user:
            await ready(user)
            workspace = only_workspace()
            await workspace.act({"do": "change", "path": ["roof", "pitch"], "value": "4/12"})
            (socket,) = user.client._socket_to_document_id
            user.client.handle_disconnect(socket)
            assert not workspace.here
            await ready(user, workspace.key)
            again = only_workspace()
            assert again is not workspace and again.here
            assert (again.key, again.name, again.history) == (
                workspace.key,
                workspace.name,
                workspace.history,
            )
            await again.act({"do": "undo"})
            assert again.text == next(iter(PLAIN.values()))

            # The network of the first page comes back: it has lost its key to the second, and goes on by itself.
            server.seat(workspace)
            assert workspace.key != again.key and server.workspaces == {
                workspace.key: workspace,
                again.key: again,
            }

    finish(go())


async def ready(user: User, key: str = "") -> None:
    """Open a page, with the key of an earlier one, and wait until it has taken up its scene."""
    await user.open(f"/?work={key}")
    user.find(WorkspaceElement).trigger("act", {"do": "ready"})
    await asyncio.sleep(0.05)


@pytest.mark.parametrize("key", ["../../etc", "b" * 16, "<script>"])
def test_a_key_that_nobody_has_is_not_taken(tmp_path: Path, key: str) -> None:
    async def go() -> None:
        async with user_simulation(root=lambda: server.page_for(Folder(tmp_path), None)) as user:
            await ready(user, key)
            assert only_workspace().key != key

    finish(go())


def handed(workspace: Workspace, method: str, path: str, **more: object) -> httpx.Response:
    """What the server hands out for a workspace."""
    from fastapi import FastAPI

    app = FastAPI()
    server.add_routes(app)
    server.workspaces[workspace.key] = workspace

    async def go() -> httpx.Response:
        await workspace.act({"do": "ready"})
        async with httpx.AsyncClient(
            transport=httpx.ASGITransport(app), base_url="http://localhost"
        ) as client:
            answer = await client.request(method, path, **more)  # type: ignore[arg-type]
            await asyncio.sleep(0.01)
            return answer

    return finish(go())


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    return Workspace("c" * 16, Folder(tmp_path), lambda _: None)


@pytest.mark.parametrize(
    ("name", "begins"),
    [
        ("roof.html", b"<!doctype html>"),
        ("packet.pdf", b"%PDF"),
        ("what-to-buy.xlsx", b"PK"),
        ("pieces.csv", b""),
    ],
)
def test_page_packet_and_lists_are_handed_out(workspace: Workspace, name: str, begins: bytes) -> None:
    answer = handed(workspace, "GET", f"/workspace/{workspace.key}/file/{name}")
    assert answer.status_code == 200 and answer.content.startswith(begins) and len(answer.content) > 500
    assert answer.headers["content-disposition"].endswith(f"plain-gable-{name}")


@pytest.mark.parametrize("path", ["file/secret.txt", "file/..%2F..%2Fetc%2Fpasswd", "nothing"])
def test_nothing_else_is_handed_out(workspace: Workspace, path: str) -> None:
    assert handed(workspace, "GET", f"/workspace/{workspace.key}/{path}").status_code == 404


@pytest.mark.parametrize("path", ["view", "starts", "text", "file/roof.html"])
def test_nothing_is_handed_to_who_has_not_the_key(workspace: Workspace, path: str) -> None:
    assert handed(workspace, "GET", f"/workspace/{'d' * 16}/{path}").status_code == 404


def test_a_text_too_large_is_refused_and_nothing_changes(workspace: Workspace) -> None:
    first = workspace.text
    answer = handed(
        workspace, "PUT", f"/workspace/{workspace.key}/text?name=big", content=b"#" * (LARGEST + 1)
    )
    assert answer.status_code == 413 and workspace.text == first


def test_a_text_is_taken_in_by_a_plain_name_only(workspace: Workspace, tmp_path: Path) -> None:
    text = PLAIN["plain-hip"]
    for name, status in (("../x", 422), ("mine", 200)):
        answer = handed(
            workspace, "PUT", f"/workspace/{workspace.key}/text?name={name}", content=text.encode()
        )
        assert answer.status_code == status
    assert (workspace.name, workspace.text) == ("mine", text)
    assert not list(tmp_path.glob("*.toml"))


def test_no_renderer_is_loaded_where_requests_are_answered() -> None:
    script = (
        "import sys\n"
        "from trimwright.viewer.app import downloads, server\n"
        "from trimwright.viewer.app.results import result_of, drawn_roof_of\n"
        "from trimwright.viewer.app.starts import starts_of\n"
        "from trimwright.viewer.app.beginnings import PLAIN\n"
        "text = PLAIN['plain-gable']\n"
        "answer = result_of(drawn_roof_of(text))\n"
        "starts_of(text)\n"
        "[downloads.file_of(answer, name) for name in downloads.FILES]\n"
        "print([name for name in sys.modules if name.partition('.')[0] in ('vtk', 'vtkmodules', 'pyvista')])\n"
    )
    ran = subprocess.run([sys.executable, "-P", "-c", script], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
