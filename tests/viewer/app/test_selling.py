"""In the browser: the roof on the customer's photograph, and the offer."""

from io import BytesIO
from pathlib import Path

from photographs import SIZE, from_the_front_left
from PIL import Image
from playwright.sync_api import expect

from tests.viewer.app.live import Looking

SPOTS = ((0.2, 0.4), (0.2, 0.75), (0.7, 0.5), (0.5, 0.5))
"""Of the photograph: under the brush, under the eraser, under what was undone, and beside all of it."""

PRICES = "item,unit,price\ntrim,ft,2.50\npanels,sq ft,4\n"


def sell(looking: Looking, name: str) -> None:
    """Go to a part of the sale of a house by its sheet."""
    looking.open_scene("sail-loft")
    looking.page.locator(".tw-dock [data-sheet=sell]").click()
    looking.page.click(f'.tw-ways .tw-row:has-text("{name}")')


def test_a_photograph_is_taken_tapped_and_shown_before_and_after(looking: Looking, tmp_path: Path) -> None:
    shot = from_the_front_left("sail-loft")
    Image.effect_noise((SIZE[0] // 2, SIZE[1] // 2), 30).convert("RGB").save(tmp_path / "Müller's house.jpg")
    page = looking.page
    sell(looking, "photograph")
    page.set_input_files(".tw-photo-sheet input[type=file]", tmp_path / "Müller's house.jpg")
    page.click("button:has-text('Tap corners')")
    image = page.locator(".tw-tap-paper img")
    expect(image).to_have_js_property("complete", True)
    looking.page.wait_for_function("document.querySelector('.tw-tap-paper img').naturalWidth > 0")
    expect(page.locator(".tw-tapping .tw-main")).to_be_disabled()
    box = image.bounding_box()
    assert box
    for x, y in shot.seen:
        page.mouse.click(box["x"] + x / SIZE[0] * box["width"], box["y"] + y / SIZE[1] * box["height"])
    page.click("text=Use these taps")
    page.wait_for_selector(".cu-sliding")
    misfit = float(page.inner_text(".tw-photo-sheet .tw-lead").split()[4])
    assert misfit < 4, "a finger hits to a pixel of the screen"
    page.locator(".cu-slider").fill("10")
    assert page.evaluate("document.querySelector('.cu-slide').style.getPropertyValue('--share')") == "10%"
    looking.wait_for("workspace.state.undo")
    paint_a_tree(looking)


def paint_a_tree(looking: Looking) -> None:
    """Three strokes, one undone and one by the eraser: the mask is white where the first was and the last was not."""
    page = looking.page
    page.click("text=Paint what stands in front")
    page.wait_for_function("document.querySelector('.tw-mask-paper img').naturalWidth > 0")
    box = page.locator(".tw-mask").bounding_box()
    assert box

    def stroke(*shares: tuple[float, float]) -> None:
        first, *rest = [(box["x"] + x * box["width"], box["y"] + y * box["height"]) for x, y in shares]
        page.mouse.move(*first)
        page.mouse.down()
        for one in rest:
            page.mouse.move(*one, steps=3)
        page.mouse.up()

    stroke((0.2, 0.2), (0.2, 0.8))
    stroke((0.7, 0.2), (0.7, 0.8))
    page.locator(".tw-tapping").get_by_role("button", name="Undo").click()
    page.get_by_role("button", name="Eraser").click()
    stroke((0.2, 0.7), (0.2, 0.8))
    page.get_by_role("button", name="Use this").click()
    page.wait_for_selector("text=Paint on at what stands in front")
    address = (
        page.evaluate("location.origin") + f"/workspace/{looking.ask('workspace.state.key')}/photo/front"
    )
    mask = Image.open(BytesIO(page.request.get(address).body()))
    seen = [mask.getpixel((int(x * mask.width), int(y * mask.height))) for x, y in SPOTS]
    assert seen == [255, 0, 0, 0]


def test_an_offer_comes_from_the_price_list_that_is_chosen(phone: Looking, tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text(PRICES, encoding="utf-8")
    page = phone.page
    sell(phone, "Offer")
    expect(page.locator(".tw-sums")).to_contain_text("no price list yet")
    page.set_input_files("[aria-label='Price list, CSV or XLSX']", tmp_path / "prices.csv")
    expect(page.locator(".tw-sums table")).to_contain_text("As planned")
    expect(page.locator(".tw-sums")).to_contain_text("Without a price, and in no sum")
    with page.expect_download() as download:
        page.click("text=Offer as PDF")
    assert Path(download.value.path()).read_bytes().startswith(b"%PDF")
    assert download.value.suggested_filename == "sail-loft-offer.pdf"


def test_the_customers_page_is_handed_out(phone: Looking) -> None:
    with phone.page.expect_download() as download:
        sell(phone, "Customer's page")
    assert 'id="customer"' in Path(download.value.path()).read_text(encoding="utf-8")
