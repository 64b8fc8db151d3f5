"""Everybody can use it: axe finds no serious fault, light or dark; screen readers are told what happens."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from tests.viewer.page.looking import Looking, opened, text_of

SHEETS = (
    "open('roof')",
    "open('pieces')",
    "select('R1-1')",
    "open('order')",
    "open('findings')",
    "open('findings', 1)",
    "open('finish')",
    "open('cautions')",
)


@pytest.fixture(scope="module", params=["light", "dark"])
def faulty(
    request: pytest.FixtureRequest, chromium: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Looking:
    context = chromium.new_context(
        viewport={"width": 390, "height": 844}, color_scheme=request.param, reduced_motion="reduce"
    )
    return opened(context, text_of("slip-shed"), tmp_path_factory.mktemp("access") / "roof.html")


def serious_faults(looking: Looking) -> list[tuple[str, list[str]]]:
    """The serious faults that axe finds, each with some of the elements that have it."""
    found = Axe().run(looking.page).response
    assert len(found["passes"]) > 10
    return [
        (fault["id"], [node["html"] for node in fault["nodes"]][:3])
        for fault in found["violations"]
        if fault["impact"] in ("serious", "critical")
    ]


@pytest.mark.parametrize("sheet", SHEETS)
def test_axe_finds_no_serious_fault(faulty: Looking, sheet: str) -> None:
    faulty.roof(sheet)
    assert serious_faults(faulty) == []


@pytest.mark.parametrize("tab", ["facts", "tape", "low", "high"])
def test_axe_finds_no_serious_fault_on_a_card(faulty: Looking, tab: str) -> None:
    faulty.roof("select('R1-1')")
    faulty.page.click(f"[data-tab={tab}]")
    assert serious_faults(faulty) == []


def test_screen_readers_are_told(faulty: Looking) -> None:
    faulty.roof("select('R1-1')")
    assert "R1-1, right-end left rake" in faulty.page.inner_text("[role=status]")
    faulty.roof("open('findings', 1)")
    assert "Finding 1, error" in faulty.page.inner_text("[role=status]")


def test_motion_is_left_out_where_it_is_not_wanted(faulty: Looking) -> None:
    faulty.roof("standAt('bare')")
    aim = faulty.roof("view.data.views.find((one) => one.name === 'bare').target")
    assert faulty.roof("view.controls.target.toArray()") == pytest.approx(aim, abs=1e-9)
