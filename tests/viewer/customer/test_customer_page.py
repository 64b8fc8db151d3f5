"""The customer's page in a browser: looks by tap and key, before and after, and nothing of the workshop."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from photographs import SIZE, from_the_front_left
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page, expect
from zoo import SCENES, layout

from tests.viewer.page.looking import PROBES
from tests.viewer.page.readable import READABLE
from trimwright.model.scene.colors import PAINTS
from trimwright.model.scene.read import read_scene, scene_from
from trimwright.viewer.customer.colors_to_try import tries_of
from trimwright.viewer.customer.pictures import shown_page
from trimwright.viewer.words.speaker import Speaker

NO_WEBGL = "HTMLCanvasElement.prototype.getContext = () => null"

LOOKS = """
[[look]]
name = "Copper"
metal = { kind = "copper" }
[[look]]
name = "Wide, <b>green</b>"
colors = { panels = "#2d4a3b", trim = "#2d4a3b" }
panels = { cover = 500 }
[shop]
name = "Skerry Sound Metal"
contact = ["Slipway 3"]
logo = "logo.png"
"""


def scene_to_sell(folder: Path) -> Path:
    """A scene with three looks, a photograph with six taps, and a shop with its logo."""
    roof = layout("sail-loft").roof
    points = ""
    for number, at in enumerate(from_the_front_left("sail-loft").taps):
        names = ", ".join(f'"{edge.name}"' for edge in roof.edges if number in edge.vertices)
        points += f"[[photo.point]]\ncorner = [{names}]\nat = [{at[0]:.2f}, {at[1]:.2f}]\n"
    Image.effect_noise(SIZE, 40).convert("RGB").save(folder / "house.jpg")
    Image.new("RGBA", (300, 90), (20, 80, 120, 255)).save(folder / "logo.png")
    text = next(path for path in SCENES if path.stem == "sail-loft").read_text(encoding="utf-8")
    file = folder / "sell.toml"
    file.write_text(text + LOOKS + '[photo]\nfile = "house.jpg"\n' + points, encoding="utf-8")
    return file


@pytest.fixture(scope="module")
def page_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("customer")
    scene = scene_to_sell(folder)
    file = folder / "page.html"
    told: list[tuple[str, int, int]] = []
    page = shown_page(
        read_scene(scene), folder, lambda what, number, count: told.append((what.text, number, count))
    )
    of_three = [(what, number, 3) for what in ("pictures", "photograph") for number in (1, 2, 3)]
    assert told == [*of_three, ("page", 1, 1)], "who waits is told of every picture"
    file.write_text(page, encoding="utf-8")
    return file


def opened(context: BrowserContext, file: Path) -> Page:
    page = context.new_page()
    page.add_init_script(path=PROBES)
    page.add_init_script(path=READABLE)
    page.goto(file.as_uri())
    page.wait_for_selector("body[data-ready]", state="attached")
    return page


@pytest.fixture(scope="module")
def page(device: BrowserContext, page_file: Path) -> Iterator[Page]:
    page = opened(device, page_file)
    problems: list[str] = []
    page.on("pageerror", lambda error: problems.append(str(error)))
    yield page
    assert problems == []


def finish(page: Page) -> str:
    """The color that the panels have on the roof that is drawn."""
    return str(
        page.evaluate("document.querySelector('.cu').stand.view.looks.metals.pan.color.getHexString()")
    )


def chosen(page: Page) -> list[str]:
    return page.locator(".cu-card[aria-pressed=true] .cu-name").all_inner_texts()


def test_is_small_enough_to_send_with_its_photograph(page_file: Path) -> None:
    assert page_file.stat().st_size < 4e6


def test_has_nothing_of_the_workshop(page: Page) -> None:
    text = page.inner_text("body")
    assert not re.search(r"\b[A-Z]\d-\d", text)
    for word in ("Finding", "screw", "stock", "Pieces", "lap", "tape"):
        assert word not in text
    assert page.evaluate("document.querySelector('.cu').stand.view.overlay.notes.length") == 0


def test_tells_who_offers_and_what_each_look_is(page: Page) -> None:
    text = page.inner_text("body")
    for words in ("Skerry Sound Metal", "Slipway 3", "As planned", "Copper", "Wide, <b>green</b>"):
        assert words in text
    expect(page.locator(".cu-logo")).to_have_js_property("naturalWidth", 300)
    page.locator(".cu-card").nth(1).click()
    assert "Half-hard copper, 16 oz" in page.inner_text(".cu-about.cu-on")
    assert "copper, new" in page.inner_text(".cu-about.cu-on").lower()


def test_looks_change_by_card_by_step_and_by_key(page: Page) -> None:
    page.locator(".cu-card").first.click()
    before = finish(page)
    page.locator(".cu-card").nth(1).click()
    assert chosen(page) == ["Copper"]
    copper = finish(page)
    assert copper != before
    page.click("[aria-label='The next look']")
    assert finish(page) == "2d4a3b"
    page.keyboard.press("a")
    assert chosen(page) == ["As planned"]
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("ArrowLeft")
    assert finish(page) == "2d4a3b"
    assert "Look C" in page.inner_text("[role=status]")


def test_a_look_with_other_panels_shows_them(page: Page) -> None:
    panels = "document.querySelector('.cu').stand.view.data.shapes.points.length"
    page.keyboard.press("a")
    narrow = page.evaluate(panels)
    page.keyboard.press("c")
    assert page.evaluate(panels) < narrow


def test_full_screen_and_back(page: Page) -> None:
    page.click("[aria-label='Full screen']")
    box = page.locator(".cu-view").bounding_box()
    assert box and box["height"] == page.evaluate("innerHeight")
    page.keyboard.press("b")
    assert chosen(page) == ["Copper"]
    page.click("[aria-label='Full screen']")
    assert not page.evaluate("document.querySelector('.cu').stand.full")


def test_before_and_after_slide_and_follow_the_look(page: Page) -> None:
    page.keyboard.press("b")
    assert page.locator(".cu-after:visible").count() == 1
    page.locator(".cu-slider").fill("20")
    assert page.evaluate("document.querySelector('.cu-slide').style.getPropertyValue('--share')") == "20%"
    assert (
        page.locator(".cu-after.cu-on").evaluate("(one) => getComputedStyle(one).clipPath").endswith("20%)")
    )
    assert page.locator(".cu-after.cu-on").get_attribute("alt") == "With Copper"


def test_tapping_the_roof_chooses_no_piece(page: Page) -> None:
    page.locator(".cu-stage").click(position={"x": 150, "y": 150})
    assert page.evaluate("document.querySelector('.cu').stand.view.arrangement.selected") is None


@pytest.mark.parametrize("device", ["phone"], indirect=True, scope="module")
@pytest.mark.parametrize("shape", ["As it is seen", "Phone, upright", "Letter, lying"])
def test_pictures_come_in_set_shapes(page: Page, shape: str) -> None:
    page.click("[aria-label='Save this picture']")
    with page.expect_download() as download:
        page.click(f".cu-shapes >> text={shape}")
    with Image.open(download.value.path()) as picture:
        shapes = {"Phone, upright": (1080, 1920), "Letter, lying": (2200, 1700)}
        assert picture.size == shapes.get(shape, picture.size)
        assert len(picture.convert("RGB").resize((40, 40)).getcolors(1600) or []) > 100


def test_can_be_read_and_fits(page: Page) -> None:
    assert page.evaluate("readable.cut()") == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_pictures_stand_where_nothing_can_be_drawn(chromium: Browser, page_file: Path) -> None:
    context = chromium.new_context(offline=True)
    context.add_init_script(NO_WEBGL)
    page = opened(context, page_file)
    first = page.locator(".cu-still").get_attribute("src")
    page.locator(".cu-card").nth(2).click()
    assert page.locator(".cu-still").is_visible()
    assert page.locator(".cu-still").get_attribute("src") != first
    assert page.locator(".cu-stage").count() == 0
    context.close()


def test_without_script_all_of_it_is_read(chromium: Browser, page_file: Path) -> None:
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(page_file.as_uri())
    assert page.locator(".cu-about:visible").count() == 3
    assert page.locator(".cu-slide img:visible").count() == 4
    context.close()


CHART = """
title = "Hut"
[roof]
form = "shed"
length = "14'"
width = "10'"
pitch = "4/12"
[colors]
trim = "kelp"
panels = "kelp"
"""
KELP = '[[shop.color]]\nname = "Kelp"\ncolor = "#3c4a35"\n'


@pytest.mark.parametrize(
    ("more", "tried"),
    [
        (KELP + '[[shop.color]]\nname = "Foam"\ncolor = "white"\ncoat = "gloss"\n', ["Foam"]),
        (KELP, []),
        ('[metal]\nkind = "copper"\n', ["copper, dulled", "copper, old"]),
    ],
    ids=["the shop's chart", "all of a chart is planned", "the ages of a bare metal"],
)
def test_a_scene_without_looks_lets_its_usual_colors_be_tried(more: str, tried: list[str]) -> None:
    text = CHART if "Kelp" in more else CHART.partition("[colors]")[0]
    assert [one.name for one in tries_of(scene_from(text + more), Speaker())] == tried


def test_paints_of_our_own_are_tried_where_the_shop_has_no_chart() -> None:
    scene = scene_from(CHART.partition("[colors]")[0] + '[colors]\ntrim = "rowan"\npanels = "rowan"\n')
    assert [one.name for one in tries_of(scene, Speaker())] == [one for one in PAINTS if one != "rowan"]


def test_a_color_is_tried_on_the_roof_and_read_beside_it(chromium: Browser, tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    scene = scene_from(CHART + KELP + '[[shop.color]]\nname = "Foam"\ncolor = "#ece9df"\nreflectance = 68\n')
    file.write_text(shown_page(scene, tmp_path), encoding="utf-8")
    context = chromium.new_context(offline=True, reduced_motion="reduce")
    page = opened(context, file)
    assert (finish(page), page.locator(".cu-try:visible").count()) == ("3c4a35", 1)
    page.click("text=Foam")
    assert finish(page) == "ece9df"
    assert page.inner_text(".cu-now") == "Foam"
    assert "68 % of the sun" in page.inner_text(".cu-about.cu-on")
    page.click("[aria-label='The next look']")
    assert chosen(page) == ["As planned"]
    context.close()


def test_no_color_is_offered_where_it_could_not_be_seen(chromium: Browser, tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    more = '[[shop.color]]\nname = "Foam"\ncolor = "#ece9df"\n'
    file.write_text(shown_page(scene_from(CHART + KELP + more), tmp_path), encoding="utf-8")
    context = chromium.new_context(offline=True)
    context.add_init_script(NO_WEBGL)
    page = opened(context, file)
    assert page.locator(".cu-try:visible").count() == page.locator(".cu-step").count() == 0
    assert page.locator(".cu-still").is_visible() and page.locator(".cu-about:visible").count() == 1
    context.close()
