"""The server: a page for each browser, and what benches hand out and take in."""

from __future__ import annotations

import asyncio
import gc
import secrets
import sys
from collections.abc import Mapping
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

from .bench import Bench, lines_of
from .downloads import FILES
from .folder import LARGEST, Folder, text_of
from .guard import LOOPBACK, Guard
from .view import BenchView, styles

SWITCH = 0.0005
"""Seconds after which whoever computes lets others in: what is asked for need not wait for an answer in the making."""

LITTER = 50_000
"""Objects made before the first look for litter: an answer makes many that are still in use."""

NO_STORE = {"Cache-Control": "no-store"}

benches: dict[str, Bench] = {}
"""The benches of all browsers that are here, by their keys."""


def page_for(folder: Folder, scene: str | None) -> None:
    """Build the page of one browser: its own bench, with what was on it before the page was loaded again."""
    ui.add_css(styles())
    ui.query("body").style("overflow: hidden")
    client = context.client
    client.content.classes("tw-whole-page")
    asked = client.request.query_params.get("work", "")
    view = BenchView()
    bench = Bench(secrets.token_hex(8), folder, view.tell)

    async def act(what: Mapping[str, Any]) -> None:
        if what.get("do") == "ready":
            take_up(bench, asked)
        await bench.act(what)

    def gone() -> None:
        if benches.get(bench.key) is bench:
            del benches[bench.key]

    view.on_act(act)
    client.on_connect(lambda: seat(bench))
    client.on_disconnect(lambda: setattr(bench, "here", client.has_socket_connection))
    client.on_delete(gone)
    benches[bench.key] = bench
    if scene:
        _put(bench, scene)


def seat(bench: Bench) -> None:
    """Note that somebody is at ``bench``; where its key has gone to another page meanwhile, it gets a new one."""
    bench.here = True
    if benches.setdefault(bench.key, bench) is not bench:
        bench.key = secrets.token_hex(8)
        benches[bench.key] = bench


def take_up(bench: Bench, asked: str) -> None:
    """Put on a bench what lay on the one of the key ``asked``, and give it that key, unless somebody is there.

    A page that is loaded again asks for the key that it had. By the time the new page is ready, the old one is gone;
    where it is not, there are two pages, and the new one begins with a copy of what the other has.
    """
    before = benches.get(asked)
    try:
        if before is not None:
            bench.follow(before)
        elif (copy := bench.folder.copy_of(asked)) is not None:
            saved = bench.folder.read(copy.name) if bench.folder.has(copy.name) else None
            bench.begin_with(bench.folder.kept(copy), copy.name, saved)
        else:
            return
    except TrimwrightError as error:
        bench.refused = " ".join(lines_of(error))
        return
    if before is None or not before.here:
        del benches[bench.key]
        bench.key = asked
        benches[asked] = bench


def _put(bench: Bench, scene: str) -> None:
    """Put the scene on a bench that the server was started with."""
    try:
        text = bench.folder.read(scene)
        bench.begin_with(text, scene, text)
    except TrimwrightError as error:
        bench.refused = " ".join(lines_of(error))


def add_routes(to: FastAPI) -> None:
    """Add what benches hand out and take in to an application."""
    to.add_api_route("/bench/{key}/view", _view, methods=["GET"], response_model=None)
    to.add_api_route("/bench/{key}/starts", _starts, methods=["GET"], response_model=None)
    to.add_api_route("/bench/{key}/text", _text, methods=["GET"], response_model=None)
    to.add_api_route("/bench/{key}/text", _take_text, methods=["PUT"], response_model=None)
    to.add_api_route("/bench/{key}/file/{name}", _file, methods=["GET"], response_model=None)


def _bench(key: str) -> Bench | None:
    return benches.get(key)


async def _view(key: str, all: bool = False) -> Response:  # noqa: A002
    bench = _bench(key)
    if bench is None:
        return Response(status_code=404)
    if all:
        bench.sent = {}
    parts = [b'"%s":%s' % (name.encode(), part) for name, part in bench.fresh().items()]
    head = b'{"number":%d,"whole":%s,"parts":{' % (bench.number, b"true" if bench.whole else b"false")
    return Response(head + b",".join(parts) + b"}}", media_type="application/json", headers=NO_STORE)


async def _starts(key: str) -> Response:
    bench = _bench(key)
    return JSONResponse(await bench.compared()) if bench else Response(status_code=404)


async def _text(key: str) -> Response:
    bench = _bench(key)
    if bench is None:
        return Response(status_code=404)
    return PlainTextResponse(bench.text, headers={**NO_STORE, **_named(f"{bench.name}.toml")})


async def _take_text(key: str, request: Request, name: str = "") -> Response:
    """Take in a text: another file with its name, or what was written in place of the present one."""
    bench = _bench(key)
    if bench is None:
        return Response(status_code=404)
    raw = b""
    async for chunk in request.stream():
        raw += chunk
        if len(raw) > LARGEST:
            return JSONResponse(
                {"problem": f"more than {LARGEST:,} bytes; a scene is a short text file"}, 413
            )
    try:
        text = text_of(raw, name or "this text")
        if name:
            bench.begin(text, name)
        else:
            bench.replace(text)
    except TrimwrightError as error:
        return JSONResponse({"problem": " ".join(lines_of(error))}, 422)
    await bench.act({})
    return JSONResponse({})


async def _file(key: str, name: str) -> Response:
    bench = _bench(key)
    answer = await bench.latest() if bench and name in FILES else None
    if bench is None or answer is None:
        return Response(status_code=404)
    make, kind = FILES[name]
    data = await asyncio.to_thread(make, answer)
    return Response(data, media_type=kind, headers={**NO_STORE, **_named(f"{bench.name}-{name}")})


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
    app.add_middleware(Guard, names=names, addresses=host not in LOOPBACK)
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
        reconnect_timeout=10.0,
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
