"""Debian's Chromium, for everything that is looked at in a browser. Without it these tests fail; they don't skip."""

from collections.abc import Iterator
from typing import Any

import pytest
from debian import bring
from playwright.sync_api import Browser, BrowserContext, expect, sync_playwright

PATIENCE = 120_000.0
"""What a page may take to come to a state, milliseconds: as long as it takes on a machine that does much else."""

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
    """The browser, one for the whole session; every page in it is waited for with patience."""
    program = bring("chromium", "chromium")
    expect.set_options(timeout=PATIENCE)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(program))
        browser.on("context", lambda context: context.set_default_timeout(PATIENCE))
        yield browser
        browser.close()


@pytest.fixture(scope="module", params=list(DEVICES))
def device(request: pytest.FixtureRequest, chromium: Browser) -> Iterator[BrowserContext]:
    """A context of each size; it has no network."""
    context = chromium.new_context(**DEVICES[request.param], reduced_motion="reduce", offline=True)
    yield context
    context.close()
