"""In the browser: an answer that comes while somebody writes, chooses or taps takes nothing from under their hands."""

import re

import pytest
from playwright.sync_api import expect

from tests.viewer.app.conftest import Opened
from tests.viewer.app.live import Looking

ANSWER = "workspace.state = { ...workspace.state }; workspace.put();"
"""What comes when the server tells the same again."""


@pytest.fixture(scope="module")
def here(opened: Opened) -> Looking:
    return opened("laptop").afresh()


def asked(here: Looking, script: str) -> object:
    """What a script returns that runs in one go, so that nothing else comes in between."""
    return here.ask(f"(() => {{ {script} }})()")


def test_what_is_on_its_way_is_not_taken_back_by_an_answer_to_what_was_before(here: Looking) -> None:
    asked(
        here,
        "const { edits } = workspace; window.act = edits.act; edits.act = () => {}; edits.wait = () => {};",
    )
    here.write("31'", "roof", "length", wait=False)
    asked(here, ANSWER)
    expect(here.field("roof", "length")).to_have_value("31'")
    before = here.shown
    asked(here, "workspace.edits.act = window.act; delete workspace.edits.wait; workspace.edits.again()")
    here.wait_for(f"shown > {before} && !workspace.edits.open.size")
    expect(here.field("roof", "length")).to_have_value("31'")


def test_a_form_that_is_built_anew_keeps_what_is_being_written_in_it(here: Looking) -> None:
    script = """
        const field = () => document.querySelector(`[data-path='["roof","width"]']`);
        field().focus();
        field().value = "20' 1";
        field().setSelectionRange(3, 3);
        workspace.form.shape = "";
        workspace.form.show(workspace.state);
        const now = [field().value, document.activeElement === field(), field().selectionStart];
        field().value = "20'";
        return now;
    """
    assert asked(here, script) == ["20' 1", True, 3]


@pytest.mark.parametrize("what", [".tw-form select option:last-child", ".tw-slip-row"])
def test_what_says_the_same_as_before_is_not_made_anew(here: Looking, what: str) -> None:
    script = f"const one = document.querySelector('{what}'); {ANSWER} return one.isConnected"
    assert asked(here, script)


def test_the_name_of_a_look_is_kept_while_it_is_written(here: Looking) -> None:
    here.page.click(".tw-dock [data-sheet=finish]")
    here.page.click("[aria-label='Trim: moss']")
    name = here.page.get_by_label("Name of the look")
    name.fill("Mos")
    here.page.evaluate(
        "(() => { const { roof } = document.querySelector('.tw-workspace').workspace;"
        " return roof.load(roof.view.data) })()"
    )
    expect(name).to_be_focused()
    name.press("s")
    expect(name).to_have_value("Moss")


def test_a_text_that_has_not_come_yet_cannot_be_put_in_the_scenes_place(here: Looking) -> None:
    hold = (
        "const ask = window.fetch;"
        " window.fetch = (...all) => new Promise((come) => (window.come = () => come(ask(...all))));"
    )
    asked(here, f"{hold} workspace.open('text'); window.fetch = ask;")
    take = here.page.get_by_role("button", name="Take this text")
    expect(take).to_be_disabled()
    asked(here, "window.come()")
    expect(take).to_be_enabled()
    expect(here.page.locator(".tw-text")).to_have_value(re.compile("title = "))
