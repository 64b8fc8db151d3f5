"""In the browser: an outline is drawn by mouse and finger, and by keys; what was taped has its fields."""

from pathlib import Path

from playwright.sync_api import expect

from tests.viewer.app.live import Looking

PLACE = """([ring, corner]) => {
    const { outline } = document.querySelector('.tw-workspace').workspace.form;
    const box = outline.plan.el.getBoundingClientRect(), [x, y] = outline.plan.put(outline.rings[ring][corner]);
    return [box.left + (x * box.width) / 340, box.top + (y * box.width) / 340];
}"""


def drag(looking: Looking, start: list[float], by: tuple[float, float]) -> None:
    """Drag with a finger where there are fingers, else with the mouse."""
    x, y = start
    if looking.page.evaluate("navigator.maxTouchPoints"):
        touch = looking.page.context.new_cdp_session(looking.page)
        for kind, share in (
            ("touchStart", 0.0),
            *(("touchMove", k / 6) for k in range(1, 7)),
            ("touchEnd", 1.0),
        ):
            at = [] if kind == "touchEnd" else [{"x": x + share * by[0], "y": y + share * by[1]}]
            touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": at})
        return
    looking.page.mouse.move(x, y)
    looking.page.mouse.down()
    looking.page.mouse.move(x + by[0], y + by[1], steps=4)
    looking.page.mouse.up()


def place(looking: Looking, corner: int) -> list[float]:
    looking.page.locator(".tw-plan").scroll_into_view_if_needed()
    found: list[float] = looking.page.evaluate(PLACE, [0, corner])
    return found


def middle(looking: Looking, one: int, two: int) -> list[float]:
    return [sum(pair) / 2 for pair in zip(place(looking, one), place(looking, two), strict=True)]


def test_a_house_with_a_wing_is_drawn_from_a_gable(looking: Looking) -> None:
    page = looking.page
    looking.field("roof", "form").select_option("outline")
    looking.wait_for("workspace.state.outline?.edges.length && workspace.state.outline.current")
    page.get_by_role("button", name="Wing here").click()
    looking.wait_for("workspace.form.outline.rings[0].length === 8 && workspace.form.outline.told.current")
    looking.wait_for("workspace.state.whole && !workspace.state.waiting")
    expect(page.locator(".tw-outline-head b")).to_have_text("Side 3")
    expect(page.locator(".tw-line-side")).to_have_count(2)
    corners = str(looking.ask("JSON.stringify(workspace.state.outline.rings[0])"))
    drag(looking, middle(looking, 2, 3), (0, 14))
    looking.wait_for(f"JSON.stringify(workspace.state.outline.rings[0]) !== '{corners}'")
    ring = looking.ask("workspace.state.outline.rings[0]")
    assert isinstance(ring, list) and ring[2][1] == ring[3][1] < -96 and ring[2][0] == 96
    looking.wait_for("workspace.form.outline.told.current && workspace.form.outline.rings[0][2][1] < -96")
    x, y = middle(looking, 2, 3)
    page.mouse.click(x, y)
    looking.wait_for("!workspace.form.outline.told.gables.includes(3) && workspace.form.outline.told.current")
    assert looking.ask("workspace.state.outline.gables") == [6, 8], "a tap on the chosen side turned it"
    wide, end = place(looking, 2), place(looking, 6)
    drag(looking, wide, (end[0] - wide[0] + 5, end[1] - wide[1] - 20))
    expect(page.locator(".tw-outline > .tw-problem")).to_contain_text("sides cross")
    expect(page.locator(".p-wrong")).to_have_count(1)
    page.get_by_role("button", name="Undo").click()
    looking.wait_for("workspace.state.outline.current && !workspace.state.outline.problem")


def test_a_bare_number_that_is_too_small_for_a_side_is_asked_about(phone: Looking) -> None:
    page = phone.page
    phone.field("roof", "form").select_option("outline")
    phone.wait_for("workspace.state.outline?.edges.length")
    long = page.get_by_role("textbox", name="Length of side 1")
    long.fill("30")
    long.press("Enter")
    page.get_by_role("button", name="Did you mean 30 ft?").click()
    phone.wait_for("workspace.state.outline.rings[0][1][0] === 360")
    expect(page.locator(".tw-outline > .tw-reading")).to_be_hidden()


def test_an_outline_is_written_by_keys_alone(laptop: Looking) -> None:
    page = laptop.page
    laptop.field("roof", "form").select_option("outline")
    laptop.wait_for("workspace.state.outline?.edges.length")
    long = page.get_by_role("textbox", name="Length of side 1")
    long.fill("30'")
    laptop.ask("workspace.form.outline.show(workspace.form.outline.told)")
    expect(long).to_have_value("30'")  # an answer takes nothing from under the keys
    long.press("Enter")
    laptop.wait_for(
        "workspace.state.outline.rings[0][1][0] === 360 && workspace.state.outline.rings[0][2][0] === 360"
    )
    further = page.get_by_role("button", name="The next side")
    further.focus()
    for side in (2, 3):
        page.keyboard.press("Enter")
        expect(page.locator(".tw-outline-head b")).to_have_text(f"Side {side}")
        expect(further).to_be_focused()
        expect(page.locator(".tw-line-side")).not_to_have_count(0)
    page.get_by_role("button", name="Every corner, in figures").press("Enter")
    page.get_by_role("button", name="Corner after it").nth(2).press("Enter")
    laptop.wait_for("workspace.state.outline.rings[0].length === 5")
    expect(page.locator(".tw-corner-row.tw-is-chosen b")).to_have_text("Corner 4")
    across = laptop.page.locator('[data-path=\'["roof","outline",3,1]\']')
    across.fill("22' 6 1/2\"")
    across.press("Enter")
    laptop.wait_for("workspace.state.outline.rings[0][3][1] === 270.5 && workspace.state.outline.current")
    expect(page.locator(".tw-outline-head .tw-figure")).to_have_text("15' 0\", 22' 6 1/2\"")
    page.get_by_role("button", name="Take away: Corner 4").press("Enter")
    laptop.wait_for("workspace.state.outline.rings[0].length === 4")


def test_a_tape_that_is_wrong_is_named_beside_its_field(phone: Looking) -> None:
    page = phone.page
    phone.open_scene("cooperage")
    phone.wait_for("workspace.state.survey?.length")
    page.locator("[data-section=taped] > summary").click()
    flagged = page.locator("[data-section=taped] .tw-reading.tw-flag:visible")
    expect(flagged).to_have_count(0)
    phone.write("33' 8 3/8\"", "roof", "taped", "ridge")
    expect(flagged).to_have_count(1)
    expect(flagged).to_contain_text("left out")
    expect(page.locator(".tw-survey-says p").first).to_contain_text("as it was taped")
    with page.expect_download() as download:
        page.click("text=The same to fill in on the roof")
    assert Path(download.value.path()).read_bytes().startswith(b"%PDF")
