"""In a browser: a finding's change is made by one button and taken back by another, and a better layout is taken."""

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, expect

from tests.viewer.app.live import Looking, Server
from tests.viewer.conftest import DEVICES
from tests.zoo import SCENES


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    folder = tmp_path_factory.mktemp("scenes")
    shutil.copy(next(path for path in SCENES if path.stem == "net-loft"), folder)
    one = Server(folder)
    yield one
    one.kill()


@pytest.fixture
def looking(chromium: Browser, server: Server) -> Iterator[Looking]:
    context = chromium.new_context(**DEVICES["phone"], reduced_motion="reduce")
    one = Looking(context, server.url)
    one.ask("workspace.act({ do: 'open', name: 'net-loft' })")
    one.wait_for("shown >= 2 && Object.keys(workspace.state.changes).length > 0")
    yield one
    assert one.problems == []
    context.close()


TEXT = """async () => {
    const key = new URL(location).searchParams.get("work");
    return (await fetch(`/workspace/${key}/text`)).text();
}"""


def text(looking: Looking) -> str:
    return str(looking.page.evaluate(TEXT))


def test_do_this_makes_the_change_and_undo_takes_it_back(looking: Looking) -> None:
    before = text(looking)
    looking.page.locator(".tw-dock [data-sheet=findings]").click()
    looking.page.locator(".tw-row").first.click()
    change = looking.page.locator(".tw-change")
    expect(change.locator("code")).to_have_text('trim.rake.start = "shared"')
    change.get_by_role("button").click()
    looking.wait_for("shown >= 3")
    assert 'start = "shared"' in text(looking)
    assert "short-end-piece" not in str(
        looking.ask("workspace.roof.app.data.findings.map((one) => one.rule)")
    )
    looking.page.get_by_role("button", name="Undo").click()
    looking.wait_for("shown >= 4")
    assert text(looking) == before


def test_a_better_layout_is_searched_for_shown_and_taken(looking: Looking) -> None:
    looking.ask("workspace.open('compare')")
    looking.page.get_by_role("button", name="Search for a better layout").click()
    take = looking.page.get_by_role("button", name="Take the better layout")
    take.click(timeout=120_000)
    looking.wait_for("shown >= 3")
    assert '[run."right-end left rake"]' in text(looking)
