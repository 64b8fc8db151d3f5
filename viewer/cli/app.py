"""``trimwright app``: the view with a form beside it, in a browser on this machine."""

from __future__ import annotations

import os
import socket
from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.errors import TrimwrightError
from trimwright.model.message import message

from .problems import OutputError, speaker_in, told


def app(
    scene: Annotated[
        Path | None,
        typer.Argument(
            metavar="[SCENE]",
            help="A scene: a TOML file; its folder is the working folder. Without it, the present folder is.",
            show_default=False,
        ),
    ] = None,
    port: Annotated[int, typer.Option("--port", min=1, max=65535, help="Port to listen on.")] = 8350,
    host: Annotated[
        str,
        typer.Option("--host", help="Address to listen on; other machines reach only what is not loopback."),
    ] = "127.0.0.1",
) -> None:
    """Open SCENE with a form beside it, in a browser: change it, and see, check, buy, save."""
    with told(scene):
        from ..app.folder import Folder, scene_name
        from ..app.server import serve

        folder = scene.parent if scene else Path()
        name = None
        if scene:
            try:
                name = scene_name(scene.name)
                Folder(folder).read(name)
            except TrimwrightError as error:
                raise OutputError(*error.within(str(scene))) from None
        _require_free(host, port)
        shown = f"[{host}]" if ":" in host else host
        say = speaker_in(scene)
        typer.echo(say("open {address} in a browser; stop with Ctrl+C", address=f"http://{shown}:{port}/"))
        os.chdir(folder)  # files that a scene names lie beside it
        serve(Path.cwd(), name, host, port)


def _require_free(host: str, port: int) -> None:
    """Raise when the port cannot be listened on."""
    try:
        family = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0][0]
        with socket.socket(family, socket.SOCK_STREAM) as trial:
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            trial.bind((host, port))
    except OSError as error:
        raise OutputError(
            message(
                "{host} port {port}: cannot be listened on: {reason}; give another with --port",
                host=host,
                port=str(port),
                reason=(error.strerror or str(error)).lower(),
            )
        ) from None
