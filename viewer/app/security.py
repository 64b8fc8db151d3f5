"""The guard: answers only those who call the server by its own name, and lets no other site speak through a browser."""

from __future__ import annotations

import ipaddress
from collections.abc import Iterable
from typing import Any
from urllib.parse import urlsplit

LOOPBACK = ("localhost", "127.0.0.1", "::1")

POLICY = (
    "default-src 'none'; script-src 'self' 'unsafe-inline' 'unsafe-eval'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self' data: blob:; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'"
)
"""What a page of the server may do: ask this server, and nobody else. NiceGUI compiles its templates in the browser."""

HEADERS = (
    (b"content-security-policy", POLICY.encode("ascii")),
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
)


class HostCheck:
    """An ASGI application round another one."""

    def __init__(self, app: Any, names: Iterable[str], addresses: bool = False) -> None:
        """HostCheck ``app``: ``names`` are its own; ``addresses`` lets it be called by any address in digits."""
        self.app, self.names, self.addresses = app, frozenset(names), addresses

    async def __call__(self, scope: dict[str, Any], receive: Any, send: Any) -> None:
        """Pass a request on, or refuse it."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        headers: dict[bytes, list[str]] = {}
        for name, value in scope["headers"]:
            headers.setdefault(name.lower(), []).append(value.decode("latin-1"))
        hosts, origins = headers.get(b"host", []), headers.get(b"origin", [])
        if len(hosts) != 1 or not self._own(hosts[0]) or any(not _same(one, hosts[0]) for one in origins):
            await _refuse(scope, receive, send)
            return

        async def dressed(message: dict[str, Any]) -> None:
            if message["type"] == "http.response.start":
                message = {**message, "headers": [*message.get("headers", []), *HEADERS]}
            await send(message)

        await self.app(scope, receive, dressed)

    def _own(self, host: str) -> bool:
        try:
            name = urlsplit(f"//{host}").hostname or ""
        except ValueError:
            return False
        if name in self.names:
            return True
        try:
            ipaddress.ip_address(name)
        except ValueError:
            return False
        return self.addresses


def _same(origin: str, host: str) -> bool:
    """Return whether a page of ``origin`` came from ``host``, port and all."""
    try:
        parts = urlsplit(origin)
    except ValueError:
        return False
    return parts.scheme in ("http", "https") and parts.netloc.lower() == host.lower()


async def _refuse(scope: dict[str, Any], receive: Any, send: Any) -> None:
    if scope["type"] == "websocket":
        await receive()
        await send({"type": "websocket.close", "code": 1008})
        return
    body = b"This address is not the server's own; open the one that it printed.\n"
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": 403, "headers": headers})
    await send({"type": "http.response.body", "body": body})
