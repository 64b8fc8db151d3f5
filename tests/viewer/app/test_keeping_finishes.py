"""In the browser: a finish that is tried is used, kept when the page is loaded again, and saved as a look."""

from tests.viewer.app.live import Looking


def choose(looking: Looking, *names: str) -> None:
    """Choose colors on the sheet of finishes."""
    looking.page.click(".tw-dock [data-sheet=finish]")
    for name in names:
        looking.page.click(f"[aria-label='{name}']")


PANELS = "workspace.roof.view.looks.look.panels.color"


def test_a_finish_is_used_kept_and_taken_back(looking: Looking) -> None:
    own = looking.ask(PANELS)
    choose(looking, "Trim: copper, new", "Panels: copper, new")
    assert "only tried" in looking.page.inner_text(".tw-keep")
    before = looking.shown
    looking.page.click("text=Use this finish")
    looking.wait_for(f"shown > {before}")
    label = looking.page.locator(".tw-file-button").get_attribute("aria-label")
    assert label and "not saved" in label
    looking.page.get_by_role("button", name="Undo").click()
    looking.wait_for(f"{PANELS} === '{own}'")
    looking.page.get_by_role("button", name="Redo").click()
    looking.wait_for(f"{PANELS} === '#b5704a'")
    looking.page.reload()
    looking.wait_for(f"shown >= 1 && {PANELS} === '#b5704a'")


def test_a_finish_is_saved_as_a_look_and_the_next_one_comes_by_key(laptop: Looking) -> None:
    choose(laptop, "Trim: moss", "Panels: moss")
    before = laptop.shown
    laptop.page.fill("[aria-label='Name of the look']", "Moss")
    laptop.page.click("text=Save as a look")
    laptop.wait_for(f"shown > {before} && workspace.roof.app.data.looks.length === 1")
    assert laptop.page.locator(".tw-chip:has-text('Moss')").get_attribute("aria-pressed") == "true"
    laptop.page.locator(".tw-sheet-title").focus()
    laptop.page.keyboard.press("PageDown")
    laptop.wait_for("workspace.roof.view.looks.look.panels.color !== '#5b6b45'")
    laptop.page.keyboard.press("PageDown")
    laptop.wait_for("workspace.roof.view.looks.look.panels.color === '#5b6b45'")
    laptop.page.click("[aria-label='Take look Moss away']")
    laptop.wait_for("workspace.roof.app.data.looks.length === 0")
