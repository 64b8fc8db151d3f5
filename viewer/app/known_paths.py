"""Which addresses the server answers: the page, what it is made of, and the workspaces; all others it does not know."""

from __future__ import annotations

from typing import Any

KNOWN = ("/_nicegui", "/workspace/", "/favicon.ico")
"""What an address begins with that is not the page itself."""


class KnownPaths:
    """An ASGI application round another one, which would show its page at any address."""

    def __init__(self, app: Any) -> None:
        """Stand in front of ``app``."""
        self.app = app

    async def __call__(self, scope: dict[str, Any], receive: Any, send: Any) -> None:
        """Pass a request on, or answer that there is nothing."""
        if scope["type"] != "http" or scope["path"] == "/" or scope["path"].startswith(KNOWN):
            await self.app(scope, receive, send)
            return
        body = b"There is nothing at this address; open the one that the server printed.\n"
        headers = [
            (b"content-type", b"text/plain; charset=utf-8"),
            (b"content-length", str(len(body)).encode()),
        ]
        await send({"type": "http.response.start", "status": 404, "headers": headers})
        await send({"type": "http.response.body", "body": body})
