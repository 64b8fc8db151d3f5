"""The server: a page for each browser, and what workspaces hand out and take in."""

from __future__ import annotations

import asyncio
import gc
import secrets
import sys
from collections.abc import Awaitable, Callable, Mapping
from pathlib import Path
from typing import Any
from urllib.parse import quote

from fastapi import FastAPI
from nicegui import app, context, ui
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.types import ASGIApp

from trimwright.model.errors import TrimwrightError
from trimwright.model.message import message

from .downloads import FILES, file_of
from .element import WorkspaceElement, styles
from .folder import LARGEST, TOO_LARGE, Folder, FolderError, text_of
from .known_paths import KnownPaths
from .sales import SALES, SalesAnswer
from .security import LOOPBACK, HostCheck
from .workspace import Workspace

SWITCH = 0.0005
"""Seconds after which whoever computes lets others in: what is asked for need not wait for an answer in the making."""

LITTER = 50_000
"""Objects made before the first look for litter: an answer makes many that are still in use."""

UNREADABLE = message("something in the form cannot be read; put it right, then this can be had")

AWAY = 30.0
"""Seconds that a page may be out of reach, as with its telephone locked, before it has to be loaded again."""

NO_STORE = {"Cache-Control": "no-store"}

workspaces: dict[str, Workspace] = {}
"""The workspaces of all browsers that are here, by their keys."""


def page_for(folder: Folder, scene: str | None) -> None:
    """Build the page of one browser: its own workspace, with what was on it before the page was loaded again."""
    ui.add_css(styles())
    ui.query("body").style("overflow: hidden")
    client = context.client
    client.content.classes("tw-whole-page")
    asked = client.request.query_params.get("work", "")
    view = WorkspaceElement()
    workspace = Workspace(secrets.token_hex(8), folder, view.tell, at_work)

    async def act(what: Mapping[str, Any]) -> None:
        if what.get("do") == "ready":
            take_up(workspace, asked)
        await workspace.act(what)

    def gone() -> None:
        if workspaces.get(workspace.key) is workspace:
            del workspaces[workspace.key]

    view.on_act(act)
    client.on_connect(lambda: seat(workspace))
    client.on_disconnect(lambda: setattr(workspace, "here", client.has_socket_connection))
    client.on_delete(gone)
    workspaces[workspace.key] = workspace
    if scene:
        _put(workspace, scene)


def at_work() -> set[str]:
    """Return the keys of the workspaces that somebody is at."""
    return {key for key, workspace in workspaces.items() if workspace.here}


def seat(workspace: Workspace) -> None:
    """Note that somebody is at ``workspace``; where its key has gone to another page meanwhile, it gets a new one."""
    workspace.here = True
    if workspaces.setdefault(workspace.key, workspace) is not workspace:
        workspace.key = secrets.token_hex(8)
        workspaces[workspace.key] = workspace


def take_up(workspace: Workspace, asked: str) -> None:
    """Put on a workspace what lay on the one of the key ``asked``, and give it that key, unless somebody is there.

    A page that is loaded again asks for the key that it had. By the time the new page is ready, the old one is gone;
    where it is not, there are two pages, and the new one begins with a copy of what the other has.
    """
    before = workspaces.get(asked)
    try:
        if before is not None:
            workspace.follow(before)
        elif (copy := workspace.folder.copy_of(asked)) is not None:
            saved = workspace.folder.read(copy.name) if workspace.folder.has(copy.name) else None
            workspace.begin_with(workspace.folder.kept(copy), copy.name, saved)
        else:
            return
    except TrimwrightError as error:
        workspace.refused = workspace.told(error)
        return
    if before is None or not before.here:
        del workspaces[workspace.key]
        workspace.key = asked
        workspaces[asked] = workspace


def _put(workspace: Workspace, scene: str) -> None:
    """Put the scene on a workspace that the server was started with."""
    try:
        text = workspace.folder.read(scene)
        workspace.begin_with(text, scene, text)
    except TrimwrightError as error:
        workspace.refused = workspace.told(error)


def add_routes(to: FastAPI) -> None:
    """Add what workspaces hand out and take in to an application."""
    to.add_api_route("/workspace/{key}/view", _view, methods=["GET"], response_model=None)
    to.add_api_route("/workspace/{key}/starts", _starts, methods=["GET"], response_model=None)
    to.add_api_route("/workspace/{key}/better", _better, methods=["GET"], response_model=None)
    to.add_api_route("/workspace/{key}/text", _text, methods=["GET"], response_model=None)
    to.add_api_route("/workspace/{key}/text", _take_text, methods=["PUT"], response_model=None)
    to.add_api_route("/workspace/{key}/file/{name}", _file, methods=["GET"], response_model=None)
    for path, answer, methods in SALES:
        to.add_api_route(
            f"/workspace/{{key}}/{path}", _answered_by(answer), methods=methods, response_model=None
        )


def _workspace(key: str) -> Workspace | None:
    return workspaces.get(key)


def _answered_by(answer: SalesAnswer) -> Callable[[str, Request], Awaitable[Response]]:
    """Return what answers for a workspace by its key."""

    async def answered(key: str, request: Request) -> Response:
        workspace = _workspace(key)
        return await answer(workspace, request) if workspace else Response(status_code=404)

    return answered


async def _view(key: str, all: bool = False) -> Response:  # noqa: A002
    workspace = _workspace(key)
    if workspace is None:
        return Response(status_code=404)
    if all:
        workspace.sent = {}
    parts = [b'"%s":%s' % (name.encode(), part) for name, part in workspace.fresh().items()]
    head = b'{"number":%d,"whole":%s,"parts":{' % (workspace.number, b"true" if workspace.whole else b"false")
    return Response(head + b",".join(parts) + b"}}", media_type="application/json", headers=NO_STORE)


async def _starts(key: str) -> Response:
    workspace = _workspace(key)
    return JSONResponse(await workspace.compared()) if workspace else Response(status_code=404)


async def _better(key: str) -> Response:
    workspace = _workspace(key)
    return JSONResponse(await workspace.searched()) if workspace else Response(status_code=404)


async def _text(key: str) -> Response:
    workspace = _workspace(key)
    if workspace is None:
        return Response(status_code=404)
    return PlainTextResponse(workspace.text, headers={**NO_STORE, **_named(f"{workspace.name}.toml")})


async def _take_text(key: str, request: Request, name: str = "") -> Response:
    """Take in a text: another file with its name, or what was written in place of the present one."""
    workspace = _workspace(key)
    if workspace is None:
        return Response(status_code=404)
    raw = b""
    async for chunk in request.stream():
        raw += chunk
        if len(raw) > LARGEST:
            return JSONResponse({"problem": workspace.told(FolderError(TOO_LARGE))}, 413)
    try:
        text = text_of(raw, name or "this text")
        if name:
            workspace.begin(text, name)
        else:
            workspace.replace(text)
    except TrimwrightError as error:
        return JSONResponse({"problem": workspace.told(error)}, 422)
    await workspace.act({})
    return JSONResponse({})


async def _file(key: str, name: str) -> Response:
    workspace = _workspace(key)
    if workspace is None or name not in FILES:
        return Response(status_code=404)
    result = await workspace.latest()
    if result is None or workspace.problems:
        return PlainTextResponse(workspace.told(FolderError(UNREADABLE)), 409)
    data = await asyncio.to_thread(file_of, result, name)
    return Response(
        data, media_type=FILES[name].kind, headers={**NO_STORE, **_named(f"{workspace.name}-{name}")}
    )


def _named(name: str) -> dict[str, str]:
    return {"Content-Disposition": f"attachment; filename*=UTF-8''{quote(name)}"}


def serve(folder: Path, scene: str | None, host: str, port: int) -> None:
    """Serve the app until it is stopped.

    Args:
        folder: The working folder: scenes are opened from it and saved to it, nothing outside.
        scene: Name of the scene in it to begin with; None for a plain one.
        host: Address to listen on.
        port: Port to listen on.
    """
    sys.setswitchinterval(SWITCH)
    gc.freeze()
    gc.set_threshold(LITTER)
    add_routes(app)
    names = {*LOOPBACK, host}
    app.add_middleware(KnownPaths)
    app.add_middleware(HostCheck, names=names, addresses=host not in LOOPBACK)
    working = Folder(folder)
    ui.run(
        lambda: page_for(working, scene),
        host=host,
        port=port,
        title="Trimwright",
        dark=None,
        language="en-US",
        favicon=FAVICON,
        show=False,
        reload=False,
        tailwind=False,
        show_welcome_message=False,
        message_history_length=20,
        reconnect_timeout=AWAY,
        gzip_middleware_factory=None if host in LOOPBACK else _small,
    )


def _small(inner: ASGIApp) -> GZipMiddleware:
    """Make answers small on their way through a network; on loopback that would only take time."""
    return GZipMiddleware(inner, minimum_size=2_000, compresslevel=1)


FAVICON = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24"><path fill="#0b4f8a" d="M1 1h22v16l-6 6H1z"/>'
    '<path fill="none" stroke="#ffcd24" stroke-width="2.4" d="M4 15l8-8 8 8"/></svg>'
)
"""The sign in a browser's tab."""
