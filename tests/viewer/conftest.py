"""Debian's Chromium, for everything that is looked at in a browser. Without it these tests fail; they don't skip."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, sync_playwright

CHROMIUM = Path(os.environ.get("CHROMIUM", "/usr/bin/chromium"))

DEVICES: dict[str, dict[str, Any]] = {
    "laptop": {"viewport": {"width": 1280, "height": 800}},
    "phone": {
        "viewport": {"width": 390, "height": 844},
        "device_scale_factor": 3,
        "is_mobile": True,
        "has_touch": True,
    },
}


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The browser, one for the whole session."""
    if not CHROMIUM.exists():
        pytest.fail(
            f"{CHROMIUM} is missing: apt-get install -y chromium, or name it in CHROMIUM", pytrace=False
        )
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(CHROMIUM))
        yield browser
        browser.close()


@pytest.fixture(scope="module", params=list(DEVICES))
def device(request: pytest.FixtureRequest, chromium: Browser) -> Iterator[BrowserContext]:
    """A context of each size; it has no network."""
    context = chromium.new_context(**DEVICES[request.param], reduced_motion="reduce", offline=True)
    yield context
    context.close()
