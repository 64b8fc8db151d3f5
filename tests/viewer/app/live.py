"""The app as people have it: a server of its own in a folder, and pages that look at it."""

import os
import secrets
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from contextlib import suppress
from pathlib import Path

from playwright.sync_api import ConsoleMessage, Page

SCRIPT = "import sys; from trimwright.viewer.cli import main; sys.argv = ['trimwright', 'app', *sys.argv[1:]]; main()"


FILLED = {
    "compare": ".tw-sheet-body .tw-table, .tw-sheet-body .tw-problem",
    "text": ".tw-text:not([readonly])",
}
"""What stands on sheets that the server fills, once it has."""


def free_port() -> int:
    """A port that nobody has, below those that connections are given: it stays free while its server is away."""
    while True:
        port = 10_000 + secrets.randbelow(20_000)
        with socket.socket() as one, suppress(OSError):
            one.bind(("127.0.0.1", port))
            return port


class Server:
    """A server in a folder; it can be killed in the middle of its work and started again, and ends with its block."""

    def __init__(self, folder: Path, before: str = "") -> None:
        """Start one; ``before`` is Python that it runs first."""
        self.folder, self.port, self.script = folder, free_port(), before + SCRIPT
        self.start()

    def __enter__(self) -> "Server":
        return self

    def __exit__(self, *_: object) -> None:
        self.kill()

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}/"

    def start(self) -> None:
        mine = {
            name: value for name, value in os.environ.items() if not name.startswith(("NICEGUI", "PYTEST"))
        }
        command = [sys.executable, "-P", "-c", self.script, "--port", str(self.port)]
        self.process = subprocess.Popen(
            command, cwd=self.folder, env=mine, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
        )
        for _ in range(600):
            try:
                with urllib.request.urlopen(self.url, timeout=5):
                    return
            except OSError:
                assert self.process.poll() is None, self.process.stderr and self.process.stderr.read()
                time.sleep(0.1)
        self.kill()
        raise AssertionError("the server did not start in a minute")

    def kill(self) -> None:
        """End it as a power cut would."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        if self.process.stderr:
            self.process.stderr.close()

    def memory(self) -> float:
        """Resident memory, MB."""
        lines = Path(f"/proc/{self.process.pid}/status").read_text().splitlines()
        return next(int(line.split()[1]) for line in lines if line.startswith("VmRSS")) / 1024


def is_problem(line: ConsoleMessage) -> bool:
    """Whether a page complains, or is loaded again because it lost its server."""
    return line.type == "error" or line.text.startswith("reloading because")


class Looking:
    """A page of the app, and what came of it."""

    def __init__(self, page: Page, url: str) -> None:
        self.page, self.url = page, url
        self.problems: list[str] = []
        page.on("pageerror", lambda error: self.problems.append(str(error)))
        page.on("console", lambda line: is_problem(line) and self.problems.append(line.text))

    def afresh(self) -> "Looking":
        """Open the app as somebody who was never here: a scene, a history and a form of its own."""
        self.page.goto(self.url, wait_until="commit")
        self.problems.clear()
        self.wait_for("shown >= 1")
        return self

    def open_sheet(self, name: str) -> None:
        """Open a sheet, and wait until all that the server has to tell stands on it."""
        of_the_roof = "roof." if name in ("form", "buy", "roof", "pieces") else ""
        self.ask(f"workspace.{of_the_roof}open('{name}')")
        if name in FILLED:
            self.page.wait_for_selector(FILLED[name])

    def open_scene(self, name: str) -> None:
        """Open a scene of the folder, and wait until all of it is shown."""
        before = self.shown
        self.ask(f"workspace.act({{ do: 'open', name: '{name}' }})")
        self.wait_for(f"shown > {before} && workspace.state.name === '{name}'")

    def wait_for(self, words: str) -> None:
        """Wait until something holds of ``shown``, the number of the view, and ``workspace``, all told in its place."""
        self.page.wait_for_function(
            "(words) => { const { workspace } = document.querySelector('.tw-workspace') ?? {};"
            " const holds = new Function('workspace', 'shown', `return ${words}`);"
            " return workspace && workspace.before === workspace.state && holds(workspace, workspace.fetcher.shown); }",
            arg=words,
            polling=15,
        )

    def ask(self, words: str) -> object:
        """Ask the workspace something."""
        return self.page.evaluate(
            f"(() => {{ const workspace = document.querySelector('.tw-workspace').workspace; return {words} }})()"
        )

    @property
    def shown(self) -> int:
        return int(str(self.ask("workspace.fetcher.shown")))

    def open_form(self) -> None:
        """Open the form where it is not beside the view."""
        if not self.page.locator(".tw-form:visible").count():
            self.page.locator(".tw-dock [data-sheet=form]").click()

    def field(self, *path: str):  # type: ignore[no-untyped-def]
        """Return the field of a value."""
        text = "[" + ",".join(f'"{name}"' for name in path) + "]"
        return self.page.locator(f"[data-path='{text}']")

    def write(self, text: str, *path: str, wait: bool = True) -> None:
        """Write into a field and leave it."""
        before = self.shown
        self.field(*path).fill(text)
        self.field(*path).press("Enter")
        if wait:
            self.wait_for(f"shown > {before}")
