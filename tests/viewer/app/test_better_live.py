"""In a browser: a finding's change is made by one button and taken back by another, and a better layout is taken."""

import pytest
from playwright.sync_api import expect

from tests.viewer.app.live import Looking


@pytest.fixture
def looking(phone: Looking) -> Looking:
    phone.open_scene("net-loft")
    phone.wait_for("Object.keys(workspace.state.changes).length > 0")
    return phone


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
    take.click()
    looking.wait_for("shown >= 3")
    assert '[run."right-end left rake"]' in text(looking)
