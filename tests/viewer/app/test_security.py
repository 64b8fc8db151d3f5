"""The guard: strangers' names and other sites' pages are turned away, web sockets too."""

from typing import Any

import pytest
from loops import finish

from trimwright.viewer.app.security import LOOPBACK, HostCheck


def asked(
    kind: str,
    headers: list[tuple[str, str]],
    guard_names: tuple[str, ...] = LOOPBACK,
    addresses: bool = False,
) -> list[Any]:
    sent: list[Any] = []

    async def inner(scope: Any, receive: Any, send: Any) -> None:
        await send(
            {
                "type": "http.response.start" if kind == "http" else "websocket.accept",
                "status": 200,
                "headers": [],
            }
        )

    async def receive() -> Any:
        return {"type": "websocket.connect"}

    async def send(message: Any) -> None:
        sent.append(message)

    scope = {"type": kind, "headers": [(name.encode(), value.encode()) for name, value in headers]}
    finish(HostCheck(inner, guard_names, addresses)(scope, receive, send))
    return sent


def passed(sent: list[Any]) -> bool:
    return sent[0].get("status") == 200


@pytest.mark.parametrize("kind", ["http", "websocket"])
@pytest.mark.parametrize(
    ("headers", "passes"),
    [
        ([("host", "127.0.0.1:8350")], True),
        ([("host", "localhost:8350"), ("origin", "http://localhost:8350")], True),
        ([("host", "[::1]:8350")], True),
        ([("host", "evil.example:8350")], False),
        ([("host", "127.0.0.1.evil.example")], False),
        ([("host", "10.0.0.7:8350")], False),
        ([("host", "localhost:8350"), ("origin", "http://evil.example")], False),
        ([("host", "localhost:8350"), ("origin", "http://localhost:9999")], False),
        ([("host", "localhost:8350"), ("origin", "null")], False),
        (
            [
                ("host", "localhost:8350"),
                ("origin", "http://localhost:8350"),
                ("origin", "http://evil.example"),
            ],
            False,
        ),
        ([("host", "localhost"), ("host", "evil.example")], False),
        ([("host", "[")], False),
        ([], False),
    ],
)
def test_only_its_own_name_and_its_own_pages_pass(
    kind: str, headers: list[tuple[str, str]], passes: bool
) -> None:
    sent = asked(kind, headers)
    assert passed(sent) is passes
    if not passes:
        assert (
            sent[0] == {"type": "websocket.close", "code": 1008}
            if kind == "websocket"
            else sent[0]["status"] == 403
        )


def test_on_a_network_it_may_be_called_by_address_but_by_no_other_name() -> None:
    assert passed(asked("http", [("host", "10.0.0.7:8350")], ("0.0.0.0",), addresses=True))
    assert not passed(asked("http", [("host", "evil.example")], ("0.0.0.0",), addresses=True))


def test_answers_may_not_be_framed_or_sniffed() -> None:
    headers = dict(asked("http", [("host", "localhost")])[0]["headers"])
    assert headers[b"x-frame-options"] == b"DENY" and headers[b"x-content-type-options"] == b"nosniff"
