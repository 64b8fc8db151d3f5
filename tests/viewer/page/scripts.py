"""Single modules of the page and the app in a browser, so that a test can call what they export."""

import json
from collections.abc import Mapping
from typing import Any
from urllib.parse import quote

from playwright.sync_api import Browser, Page

from trimwright.viewer.app.scripts import STATIC
from trimwright.viewer.page.page import FOLDERS, modules

APP = STATIC / "app"
WORDS = {"code": "en", "sentences": {}, "counted": {}}


def importing(chromium: Browser) -> Page:
    """An empty page that can import every module by its name."""
    scripts = modules((*FOLDERS, "customer")) | {
        f"trimwright-app/{file.name}": file.read_text(encoding="utf-8") for file in APP.glob("*.js")
    }
    imports = {name: "data:text/javascript," + quote(text) for name, text in scripts.items()}
    page = chromium.new_page()
    page.set_content(f'<script type="importmap">{json.dumps({"imports": imports})}</script>')
    return page


def called(page: Page, module: str, name: str, *given: Any, words: Mapping[str, Any] = WORDS) -> Any:
    """What an exported function returns, said in ``words``."""
    return page.evaluate(
        "async ([module, name, given, words]) => {"
        ' (await import("trimwright/common/words.js")).speak(words);'
        " return (await import(module))[name](...given); }",
        [module, name, list(given), dict(words)],
    )
