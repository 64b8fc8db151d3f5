"""The view on every screen: upright, sideways, at twice its size, in the dark; and the camera that fits the roof."""

from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.viewer.page.looking import Looking, opened, text_of

SCREENS: dict[str, dict[str, Any]] = {
    "upright": {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True},
    "sideways": {"viewport": {"width": 844, "height": 390}, "is_mobile": True, "has_touch": True},
    "twice its size": {"viewport": {"width": 640, "height": 400}},
    "laptop": {"viewport": {"width": 1280, "height": 800}},
}


@pytest.fixture(scope="module")
def screens(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Looking]:
    folder = tmp_path_factory.mktemp("screens")
    return {
        name: opened(
            chromium.new_context(**screen, reduced_motion="reduce", color_scheme="dark"),
            text_of("slip-shed"),
            folder / f"{name}.html",
        )
        for name, screen in SCREENS.items()
    }


@pytest.fixture(params=list(SCREENS))
def screen(request: pytest.FixtureRequest, screens: dict[str, Looking]) -> Looking:
    return screens[request.param].afresh()


@pytest.fixture
def laptop(screens: dict[str, Looking]) -> Looking:
    return screens["laptop"].afresh()


def box_of(looking: Looking, selector: str) -> dict[str, float]:
    box = looking.page.locator(selector).first.bounding_box()
    assert box is not None
    return {name: float(value) for name, value in box.items()}


def test_the_picture_has_its_share_of_the_screen_beside_an_open_sheet(screen: Looking) -> None:
    screen.roof("open('roof')")
    stage, size = box_of(screen, ".tw-stage"), screen.page.viewport_size
    assert size is not None
    assert stage["width"] * stage["height"] > 0.3 * size["width"] * size["height"]
    assert min(stage["width"], stage["height"]) > 250
    assert screen.probe("fits()")


def test_all_else_can_be_put_away(screen: Looking) -> None:
    screen.page.get_by_role("button", name="Full view").click()
    screen.settle()
    stage, size = box_of(screen, ".tw-stage"), screen.page.viewport_size
    assert size is not None
    assert (stage["width"], stage["height"]) == (size["width"], size["height"])
    screen.page.keyboard.press("Escape")
    assert screen.page.locator(".tw-dock").is_visible()


def test_nothing_that_is_written_on_the_roof_lies_under_a_tool(screen: Looking) -> None:
    tools = box_of(screen, ".tw-tools")
    for place in ("bare", "bare back", "ladder"):
        screen.roof(f"standAt('{place}')")
        screen.settle()
        for note in screen.probe("notes()"):
            beside = note["right"] <= tools["x"] or note["left"] >= tools["x"] + tools["width"]
            below = note["top"] >= tools["y"] + tools["height"] or note["bottom"] <= tools["y"]
            assert beside or below


def test_the_names_of_two_finishes_are_seen(screen: Looking) -> None:
    screen.roof("view.painter.compareWith(document.getElementById('roof').roof.view.looks.look)")
    screen.settle()
    tools = box_of(screen, ".tw-tools")
    names = [one.bounding_box() for one in screen.page.locator(".tw-half").all()]
    assert len(names) == 2
    for name in names:
        assert name is not None
        beside = name["x"] + name["width"] <= tools["x"]
        assert beside or name["y"] >= tools["y"] + tools["height"]


def test_a_note_that_is_off_its_point_has_a_line_to_it(screen: Looking) -> None:
    screen.roof("standAt('bare')")
    screen.settle()
    off = screen.probe("leaders()")
    assert off
    for apart, line in off:
        assert (line > 0) == (apart >= 6), (apart, line)
        assert line == pytest.approx(apart if line else 0.0, abs=0.3)


def test_daylight_stays_where_the_screen_is_dark(screen: Looking) -> None:
    assert screen.page.evaluate("getComputedStyle(document.querySelector('.tw')).colorScheme") == "dark"
    sky = screen.page.evaluate("getComputedStyle(document.querySelector('.tw-stage')).backgroundImage")
    first = [int(part) for part in sky.split("rgb(")[1].split(")")[0].split(",")]
    assert min(first) > 150


WAYS = {
    "the finish": "open('finish')",
    "lifting": "app.sheet.querySelector('#tw-lift').dispatchEvent(new Event('input'))",
    "the first step": "view.arrangement.setStep(0)",
}
BEFORE = {"the finish": "open('findings')", "lifting": "open('roof')", "the first step": "open('order')"}


@pytest.mark.parametrize("way", list(WAYS))
def test_an_eye_close_to_a_piece_goes_back_to_the_whole_roof(laptop: Looking, way: str) -> None:
    laptop.roof(BEFORE[way])
    laptop.roof("lookAt('R1-1', 'low')")
    assert not laptop.probe("seesAll()")
    laptop.roof(WAYS[way])
    laptop.settle()
    assert laptop.probe("seesAll()")


def test_an_eye_that_sees_the_whole_roof_stays(laptop: Looking) -> None:
    laptop.roof("standAt('bare')")
    before = laptop.roof("view.camera.position.toArray()")
    laptop.roof("open('finish')")
    assert laptop.roof("view.camera.position.toArray()") == before


def test_the_house_fills_the_view(laptop: Looking) -> None:
    laptop.roof("standAt('finish')")
    laptop.settle()
    width, height = laptop.probe("extent()")
    assert max(width, height) > 0.75


def test_no_button_says_what_another_says(laptop: Looking) -> None:
    laptop.roof("select('R1-1')")
    seen = laptop.page.locator(".tw button:visible").evaluate_all(
        "(all) => all.map((one) => one.ariaLabel || one.textContent.trim())"
    )
    assert len(seen) > 10
    assert len({name.lower() for name in seen}) == len(seen)


def test_a_finish_is_shown_without_pins_and_chosen_pieces(laptop: Looking) -> None:
    laptop.roof("select('R1-1')")
    laptop.roof("open('piece', 'R1-1')")
    laptop.page.locator("[data-tab=high]").click()
    assert laptop.roof("view.arrangement.selected") == "R1-1"
    assert laptop.roof("view.overlay.strokes.length")
    laptop.roof("open('finish')")
    assert laptop.roof("view.arrangement.selected") is None
    assert laptop.roof("view.overlay.strokes.filter(({ group }) => group === 'work').length") == 0
    assert laptop.roof("view.overlay.notes.filter((note) => note.kind === 'pin' && note.when()).length") == 0
