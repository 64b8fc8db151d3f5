"""The page: one HTML file with a roof in it, that opens from a phone's storage and asks for nothing."""

from __future__ import annotations

import base64
import gzip
import html
import json
import re
from collections.abc import Mapping, Sequence
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from trimwright.model.checks.record import Finding
from trimwright.model.errors import TrimwrightError
from trimwright.model.layout import Layout
from trimwright.model.message import message

from ..words.find_language import name_of
from ..words.speaker import speaker_of
from .browser_words import browser_words
from .language_switch import first_of, in_language, other_languages
from .payload import payload_of
from .printed import printed_lists

STATIC = files(__package__) / "static"
"""The viewer's modules and styles."""

SCRIPTS = Path(str(STATIC))
"""The same, as a folder on the disk."""

POLICY = (
    "default-src 'none'; script-src 'unsafe-inline' data: blob:; style-src 'unsafe-inline'; img-src data: blob:; "
    "connect-src data: blob:; base-uri 'none'; form-action 'none'"
)
"""What the page may do: run what lies in it, and ask nobody for anything."""

STYLES = ("frame.css", "sheets.css", "printed.css")
"""Of a page for who makes the roof."""

FOLDERS = (".", "common", "seen", "read", "tools")
"""Of its scripts."""

REMARKS = re.compile(r"^[ \t]*//[^\n]*\n|^[ \t]+", re.MULTILINE)
"""Of a script: what only its readers need. No line of a text that it holds begins so."""

UNPACK = SCRIPTS / "opening" / "unpack.js"
"""What opens a page."""

LATE = 20
"""Seconds after which a page that has not started shows its pictures and lists instead."""


class PageError(TrimwrightError):
    """A page that cannot be made on this machine."""


def page_of(layout: Layout, findings: Sequence[Finding], stills: Mapping[str, bytes] | None = None) -> str:
    """Return the page as text.

    Args:
        layout: What is shown.
        findings: What is wrong with it.
        stills: JPEG pictures by title, for browsers that cannot draw in three dimensions.

    Raises:
        PageError: the drawing library is missing.
    """
    layout = in_language(layout, first_of(layout))
    say = speaker_of(layout.scene)
    shown = payload_of(layout, findings)
    payload = {
        **shown,
        "words": browser_words(say.language, SCRIPTS),
        "language": name_of(say.language.code),
        "languages": other_languages(layout, findings, shown, SCRIPTS),
    }
    title = html.escape(layout.scene.title)
    hidden = "<noscript><style>#roof { display: none } .tw-printed { display: block }</style></noscript>"
    lists = printed_lists(layout, findings, payload, stills or {}, say)
    late = 'document.body.dataset.ready || document.documentElement.classList.add("plain")'
    body = f"""{hidden}
<main id="roof" aria-label="{title}"></main>
{lists}
<script>
setTimeout(() => {late}, {LATE * 1000});
</script>"""
    return html_page(
        layout.scene.title, say.language.code, STYLES, FOLDERS, body, payload, "trimwright/start.js"
    )


def html_page(
    title: str,
    language: str,
    css: Sequence[str],
    folders: Sequence[str],
    body: str,
    data: Mapping[str, Any],
    start: str,
) -> str:
    """Return a page that stands alone.

    Args:
        title: Of the page, as text.
        language: Its code, as in ISO 639.
        css: Files of styles.
        folders: Of the scripts: those that the page needs.
        body: What is in it, as HTML.
        data: What the module that begins is handed.
        start: The module that begins; it exports ``start``.

    Raises:
        PageError: the drawing library is missing.
    """
    return f"""<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>{html.escape(title)}</title>
<style>{styles(css)}</style>
</head>
<body>
{body}
<script type="text/plain" id="packed" data-start="{start}">{packed(modules(folders), data)}</script>
<script>{UNPACK.read_text(encoding="utf-8")}</script>
</body>
</html>
"""


def styles(files_of: Sequence[str]) -> str:
    """Return some of the viewer's styles."""
    return "".join((STATIC / name).read_text(encoding="utf-8") for name in files_of)


def modules(folders: Sequence[str]) -> dict[str, str]:
    """Return modules and the drawing library that they use, each by the name that it is imported by.

    Args:
        folders: Where the modules lie; ``.`` for those beside the folders.
    """
    found = {"nicegui-scene": _library().read_text(encoding="utf-8")}
    for folder in folders:
        for file in sorted((SCRIPTS / folder).glob("*.js")):
            script = REMARKS.sub("", file.read_text(encoding="utf-8"))
            found[f"trimwright/{file.relative_to(SCRIPTS).as_posix()}"] = script
    return found


def packed(scripts: Mapping[str, str], data: Mapping[str, Any]) -> str:
    """Return scripts and data as ``unpack.js`` takes them, in a quarter of their room and free of markup."""
    text = json.dumps(
        {"scripts": scripts, "data": data}, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    )
    return base64.b64encode(gzip.compress(text.encode("utf-8"), mtime=0)).decode("ascii")


def _library() -> Path:
    """Return the drawing library that comes with NiceGUI, without the time that importing all of that takes."""
    spec = find_spec("nicegui")
    places = spec.submodule_search_locations if spec else None
    file = Path(places[0], "elements", "scene", "dist", "index.js") if places else None
    if file is None or not file.is_file():
        raise PageError(
            message("the page needs the package nicegui, 3.16 or later but before 4; install it with pip")
        )
    return file
