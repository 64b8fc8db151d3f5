"""The app in a browser: what is written changes what is seen, nothing is lost, and nobody is in another's way."""

import urllib.error
import urllib.request
from pathlib import Path
from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, expect

from tests.viewer.app.live import Looking, Server
from tests.viewer.conftest import DEVICES
from tests.zoo import SCENES

SCHEMES: tuple[Literal["light", "dark"], ...] = ("light", "dark")
HOSTILE = "<script>window.harmed=1</script><img src=x onerror=window.harmed=1>"


def test_a_field_changes_the_view_the_short_piece_and_the_lists(looking: Looking) -> None:
    size = "workspace.roof.view.box.max.x - workspace.roof.view.box.min.x"
    before, short = looking.ask(size), looking.page.inner_text(".tw-slip-row >> nth=0")
    looking.write("45'", "roof", "length")
    assert float(str(looking.ask(size))) > float(str(before)) + 5
    assert looking.page.inner_text(".tw-slip-row >> nth=0") != short
    looking.page.get_by_role("button", name="Undo").click()
    looking.wait_for("shown >= 3")
    assert looking.ask(size) == pytest.approx(before)
    expect(looking.field("roof", "length")).to_have_value("24'")
    looking.page.get_by_role("button", name="Redo").click()
    looking.wait_for("shown >= 4")
    expect(looking.field("roof", "length")).to_have_value("45'")


def test_a_field_that_cannot_be_read_says_so_beside_itself_and_the_view_stays(looking: Looking) -> None:
    pieces = looking.ask("workspace.roof.view.pieces.size")
    looking.write("6/1x", "roof", "pitch", wait=False)
    field = looking.field("roof", "pitch")
    expect(field).to_have_attribute("aria-invalid", "true")
    said = looking.page.locator(f"id={field.get_attribute('aria-describedby')}")
    expect(said).to_have_text("6/1x is not a pitch; write 6/12, 26.57 deg or 50 %")
    expect(looking.page.locator(".tw-held").first).to_contain_text("last roof that could be read")
    assert (looking.shown, looking.ask("workspace.roof.view.pieces.size")) == (1, pieces)
    looking.page.locator(".tw-held-field").click()
    expect(field).to_be_focused()
    looking.write("7/12", "roof", "pitch")
    expect(field).to_have_attribute("aria-invalid", "false")


def test_a_problem_of_a_single_run_is_led_to(looking: Looking) -> None:
    path = ["run", "front eave", "pieces"]
    looking.ask(f"workspace.act({{ do: 'change', path: {path}, value: '3 ft, 4 ft' }})")
    looking.page.locator(".tw-held-field").click()
    expect(looking.field(*path)).to_be_focused()
    expect(looking.field(*path)).to_be_in_viewport()


BURST = "for (let k = 0; k < 200; k++) workspace.edits.send({ do: 'change', path: ['title'], value: `edit ${k}` })"


def test_two_hundred_edits_at_once_all_arrive(phone: Looking) -> None:
    phone.ask(f"(() => {{ {BURST} }})()")
    phone.wait_for("workspace.state.heard === 200 && !workspace.state.waiting")
    expect(phone.field("title")).to_have_value("edit 199")
    phone.page.get_by_role("button", name="Undo").click()
    expect(phone.field("title")).to_have_value("edit 198")


def test_an_edit_that_got_lost_is_told_beside_its_field_and_sent_again_in_its_turn(phone: Looking) -> None:
    lose = (
        "const { act } = workspace.edits; workspace.edits.wait = () => {}; "  # its own patience would come before
        "workspace.edits.act = (one) => one.edit % 7 && act(one)"
    )
    phone.ask(f"(() => {{ {lose}; {BURST}; workspace.edits.act = act }})()")
    phone.wait_for("workspace.state.heard === 6")
    phone.ask("workspace.edits.tell()")
    phone.wait_for("!workspace.state.waiting")
    phone.ask("workspace.form.show(workspace.state)")  # an answer to the edits before it
    expect(phone.page.get_by_text("Not arrived yet: it is sent again.")).to_be_visible()
    phone.ask("workspace.edits.again()")
    phone.wait_for("workspace.state.heard === 200 && !workspace.state.waiting")
    expect(phone.field("title")).to_have_value("edit 199")
    expect(phone.page.get_by_text("Not arrived yet: it is sent again.")).to_be_hidden()


def test_the_drawing_lights_up_what_is_written(laptop: Looking) -> None:
    laptop.field("roof", "width").focus()
    expect(laptop.page.locator(".s-dim.tw-lit text")).to_have_text(["width"])
    laptop.field("roof", "overhang", "eave").focus()
    expect(laptop.page.locator(".s-dim.tw-lit text")).to_have_text(["eave"])


def test_camera_step_and_sheet_stay_through_a_change(phone: Looking) -> None:
    phone.ask("workspace.roof.view.flight.turn(0.4, 0.2)")
    phone.ask("workspace.roof.setStep(5)")
    before = phone.ask("workspace.roof.view.camera.position.toArray()")
    phone.write("7/12", "roof", "pitch")
    assert phone.ask("workspace.roof.view.arrangement.step") == 5
    at = phone.ask("workspace.roof.view.camera.position.toArray()")
    assert at == pytest.approx(before, abs=0.5)


def test_who_stands_at_a_view_point_stands_there_on_the_changed_roof(phone: Looking) -> None:
    phone.ask("workspace.roof.standAt('bare')")
    marks = "document.querySelector('.tw-note-piece:not([hidden])') !== null"
    phone.wait_for(marks)
    before = phone.ask("workspace.roof.view.viewpoints.current.eye")
    phone.write("60'", "roof", "length")
    after = phone.ask("workspace.roof.view.viewpoints.current.eye")
    assert phone.ask("workspace.roof.view.viewpoints.current.name") == "bare" and phone.ask(
        "workspace.roof.view.looks.apart"
    )
    assert after != before and phone.ask("workspace.roof.view.camera.position.toArray()") != before
    phone.wait_for(marks)


def test_a_card_waits_for_what_is_not_answered_yet(phone: Looking) -> None:
    pieces = "workspace.roof.view.pieces"
    phone.ask(f"{pieces}.set('E1-1', {{ ...{pieces}.get('E1-1'), ends: undefined }})")
    phone.ask("workspace.roof.select('E1-1')")
    expect(phone.page.get_by_text("This piece is being worked out.")).to_be_visible()
    phone.ask("workspace.roof.load(workspace.roof.view.data)")
    expect(phone.page.locator(".tw-facts")).to_be_visible()


def test_writing_is_not_disturbed_by_the_answer(looking: Looking) -> None:
    field = looking.field("roof", "length")
    field.focus()
    field.press("Control+a")
    field.press_sequentially("31'", delay=30)
    looking.wait_for("shown >= 2")
    field.press_sequentially(" 6", delay=30)
    looking.wait_for("shown >= 3")
    expect(field).to_have_value("31' 6")
    expect(field).to_be_focused()


def test_a_title_of_markup_is_nothing_but_a_title(phone: Looking) -> None:
    phone.write(HOSTILE, "title")
    expect(phone.page.locator(".tw-title")).to_have_text(HOSTILE)
    for sheet in ("buy", "pieces", "findings", "order"):
        phone.page.locator(f".tw-dock [data-sheet={sheet}]").click()
    phone.wait_for("!workspace.roof.view.painter.pending")
    assert phone.page.evaluate("window.harmed") is None
    assert phone.page.locator(".tw-title script, .tw-title img").count() == 0


def test_another_form_of_roof_has_other_fields(phone: Looking) -> None:
    phone.field("roof", "form").select_option("hip")
    phone.wait_for("shown >= 2")
    expect(phone.field("roof", "end_pitch")).to_be_visible()
    expect(phone.field("trim", "rake", "lap")).to_have_count(0)
    assert "hip" in str(phone.ask("workspace.roof.view.data.pieces.map((piece) => piece.trim).join()"))


def test_a_scene_is_opened_saved_under_another_name_and_replaced_only_when_sure(
    looking: Looking, server: Server
) -> None:
    page = looking.page
    (server.folder / "mine.toml").write_text("kept")
    page.locator(".tw-file-button").click()
    page.get_by_role("button", name="bakehouse", exact=True).first.click()
    looking.wait_for("shown >= 2 && workspace.state.name === 'bakehouse'")
    page.get_by_label("Name to save as").fill("mine")
    page.get_by_role("button", name="Save as").click()
    expect(page.get_by_text("mine.toml is there already.")).to_be_visible()
    assert (server.folder / "mine.toml").read_text() == "kept"
    page.get_by_role("button", name="Replace it").click()
    looking.wait_for("workspace.state.name === 'mine' && !workspace.state.unsaved")
    assert (server.folder / "mine.toml").read_text() == (server.folder / "bakehouse.toml").read_text()


def test_a_sheet_that_is_open_stays_through_a_change(looking: Looking) -> None:
    for name in ("file", "text", "compare", "cautions", "order", "buy"):
        known = name in ("cautions", "order", "buy")
        looking.ask(f"workspace.roof.open('{name}')" if known else f"workspace.open('{name}')")
        before = looking.shown
        looking.ask(f"workspace.act({{ do: 'change', path: ['roof', 'pitch'], value: '{6 + before}/12' }})")
        looking.wait_for(f"shown > {before}")
        assert looking.ask("workspace.roof.app.current.name") == name


def test_starting_rules_stand_side_by_side(phone: Looking) -> None:
    page = phone.page
    page.locator(".tw-file-button").click()
    page.get_by_role("button", name="Ways to lay out the lengths, side by side").click()
    expect(page.locator(".tw-table thead th")).to_have_text(
        ["", "at the low end", "at the high end", "centered", "all pieces alike", "low, a short one shared"]
    )
    page.get_by_role("button", name="all pieces alike", exact=True).click()
    phone.wait_for("shown >= 2")
    assert "none" in page.inner_text(".tw-slip-row >> nth=0")


def test_downloads_come_with_a_name(phone: Looking) -> None:
    phone.page.locator(".tw-file-button").click()
    for name in ("roof.html", "packet.pdf", "what-to-buy.xlsx", "pieces.csv"):
        with phone.page.expect_download() as download:
            phone.page.locator(f"a[href$='{name}']").click()
        assert download.value.suggested_filename == f"plain-gable-{name}"


def test_a_file_from_the_device_is_taken_up(phone: Looking, tmp_path: Path) -> None:
    (tmp_path / "from afar!.toml").write_text(SCENES[0].read_text())
    phone.page.locator(".tw-file-button").click()
    phone.page.get_by_label("A scene from this device").set_input_files(tmp_path / "from afar!.toml")
    phone.wait_for("shown >= 2 && workspace.state.name === 'from afar-'")


def test_two_people_do_not_disturb_each_other(phone: Looking, laptop: Looking) -> None:
    phone.write("9/12", "roof", "pitch")
    expect(laptop.field("roof", "pitch")).to_have_value("6/12")
    laptop.write("3/12", "roof", "pitch")
    expect(phone.field("roof", "pitch")).to_have_value("9/12")
    assert phone.ask("workspace.state.key") != laptop.ask("workspace.state.key")


def test_killed_in_the_middle_of_edits_nothing_is_lost(chromium: Browser, tmp_path: Path) -> None:
    with Server(tmp_path) as server:
        context = chromium.new_context(**DEVICES["laptop"], reduced_motion="reduce")
        one = Looking(context.new_page(), server.url).afresh()
        for pitch in range(3, 9):
            one.write(f"{pitch}/12", "roof", "pitch", wait=False)
        one.wait_for("workspace.state.form.sections[0].fields.some((field) => field.value === '8/12')")
        server.kill()
        one.page.wait_for_function("document.querySelector('.tw-form').inert")
        address = one.page.url
        one.page.close()
        server.start()
        stranger = Looking(context.new_page(), server.url).afresh()
        stranger.page.locator(".tw-file-button").click()
        expect(stranger.page.get_by_text("Left unfinished")).to_be_visible()
        for _ in range(2):
            again = Looking(context.new_page(), address).afresh()
            expect(again.field("roof", "pitch")).to_have_value("8/12")
        context.close()


def test_a_page_loaded_again_shows_what_it_showed(phone: Looking) -> None:
    phone.write("9/12", "roof", "pitch")
    address = phone.page.url
    phone.page.reload()
    phone.wait_for("shown >= 1")
    phone.open_form()
    expect(phone.field("roof", "pitch")).to_have_value("9/12")
    assert phone.page.url == address
    phone.page.get_by_label("Undo").click()
    expect(phone.field("roof", "pitch")).to_have_value("6/12")


def test_while_something_cannot_be_read_no_file_of_another_roof_is_handed_out(
    phone: Looking, server: Server
) -> None:
    phone.write("6/1x", "roof", "pitch", wait=False)
    phone.wait_for("!workspace.state.current")
    phone.page.locator(".tw-file-button").click()
    expect(phone.page.get_by_text("Something in the form cannot be read.")).to_be_visible()
    expect(phone.page.locator(".tw-download")).to_have_count(1)
    with pytest.raises(urllib.error.HTTPError) as refused:
        key = phone.ask("workspace.state.key")
        urllib.request.urlopen(f"{server.url}workspace/{key}/file/roof.html", timeout=60)
    assert refused.value.code == 409 and b"put it right" in refused.value.read()
    refused.value.close()
    phone.open_form()
    phone.write("7/12", "roof", "pitch")
    phone.page.locator(".tw-file-button").click()
    expect(phone.page.locator("a[href$='roof.html']")).to_be_visible()


def test_one_bad_field_does_not_keep_the_others_from_being_taken(phone: Looking) -> None:
    phone.write("", "title", wait=False)
    phone.wait_for("!workspace.state.current")
    phone.write("45'", "roof", "length")
    box = phone.ask("(({ min, max }) => max.x - min.x)(workspace.roof.view.box)")
    assert float(str(box)) > 13
    expect(phone.page.locator(".tw-held").first).to_contain_text("as it was before")
    expect(phone.page.locator(".tw-title")).to_have_text("A gable at Skerry Sound")


def test_a_bare_number_that_cannot_be_meant_is_asked_about(phone: Looking) -> None:
    phone.write("40", "roof", "length")
    row = phone.page.locator(".tw-field", has=phone.field("roof", "length"))
    expect(row).to_contain_text("40 in, read as 3' 4\"")
    row.get_by_role("button", name="Did you mean 40 ft?").click()
    expect(phone.field("roof", "length")).to_have_value("40 ft")
    phone.wait_for("shown >= 3")
    expect(row.locator(".tw-reading")).to_be_hidden()


def test_a_scene_is_saved_under_a_customers_name(phone: Looking, server: Server) -> None:
    phone.page.locator(".tw-file-button").click()
    phone.page.get_by_label("Name to save as").fill("Müller, 14 Birch Ln.")
    phone.page.get_by_role("button", name="Save as").click()
    phone.wait_for("workspace.state.name === 'Müller, 14 Birch Ln.'")
    saved = server.folder / "Müller, 14 Birch Ln..toml"
    assert saved.exists()
    saved.unlink()


def test_a_tab_that_is_open_is_not_left_unfinished(phone: Looking, laptop: Looking) -> None:
    phone.write("9/12", "roof", "pitch")
    laptop.page.reload()  # what was left lying is told when a page opens
    laptop.wait_for("shown >= 1")
    left = laptop.ask("workspace.state.unfinished.map(({ key }) => key)")
    assert isinstance(left, list) and phone.ask("workspace.state.key") not in left


def test_a_wrong_address_is_not_the_app(server: Server) -> None:
    for path in ("nothing", "index.html", "workspace", "scenes/boat-shed.toml"):
        with pytest.raises(urllib.error.HTTPError) as refused:
            urllib.request.urlopen(server.url + path, timeout=60)
        assert refused.value.code == 404
        refused.value.close()


def test_the_page_may_ask_nobody_but_its_server(server: Server) -> None:
    with urllib.request.urlopen(server.url, timeout=60) as answer:
        policy = answer.headers["Content-Security-Policy"]
    assert policy.startswith("default-src 'none'") and "http" not in policy


def test_the_first_key_skips_to_the_sheet(looking: Looking) -> None:
    looking.page.evaluate("document.activeElement.blur()")
    looking.page.locator(".tw-skip button").focus()
    expect(looking.page.locator(".tw-skip button")).to_be_in_viewport()
    looking.page.keyboard.press("Enter")
    expect(looking.page.locator(".tw-sheet-title")).to_be_focused()


@pytest.mark.parametrize(
    "headers",
    [{"Host": "evil.example"}, {"Origin": "http://evil.example"}, {"Host": "127.0.0.1.evil.example"}],
)
@pytest.mark.parametrize("path", ["", "_nicegui_ws/socket.io/?EIO=4&transport=polling"])
def test_strangers_are_refused(server: Server, headers: dict[str, str], path: str) -> None:
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(urllib.request.Request(server.url + path, headers=headers), timeout=60)
    assert refused.value.code == 403
    refused.value.close()


def test_axe_finds_no_serious_fault(phone: Looking) -> None:
    phone.write("6/1x", "roof", "pitch", wait=False)
    phone.wait_for("!workspace.state.current")
    faults = {}
    for sheet in ("form", "file", "compare", "text", "buy"):
        phone.open_sheet(sheet)
        for scheme in SCHEMES:
            phone.page.emulate_media(color_scheme=scheme)
            faults[sheet, scheme] = serious_faults(phone)
    phone.page.emulate_media(color_scheme="null")
    assert {place: found for place, found in faults.items() if found} == {}


def serious_faults(looking: Looking) -> list[tuple[str, list[str]]]:
    """The serious faults that axe finds, each with some of the elements that have it."""
    found = Axe().run(looking.page).response
    assert len(found["passes"]) > 10
    return [
        (fault["id"], [node["html"] for node in fault["nodes"]][:3])
        for fault in found["violations"]
        if fault["impact"] in ("serious", "critical")
    ]
