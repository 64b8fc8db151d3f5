"""What a person does with the page, on a laptop and on a phone."""

import math
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext

from tests.viewer.page.looking import Looking, opened, text_of
from tests.zoo import layout
from trimwright.viewer.page.page import page_of

ON_A_PHONE = pytest.mark.parametrize("device", ["phone"], indirect=True, scope="module")
"""For what is the same on every device."""


@pytest.fixture(scope="module")
def pages(device: BrowserContext, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Looking]:
    """Open a shed with nothing to find, so that no pin stands before what is tapped, and one full of faults."""
    folder = tmp_path_factory.mktemp("pages")
    texts = {"boat-shed": page_of(layout("boat-shed"), ()), "slip-shed": text_of("slip-shed")}
    return {name: opened(device, text, folder / f"{name}.html") for name, text in texts.items()}


@pytest.fixture
def shed(pages: dict[str, Looking]) -> Looking:
    return pages["boat-shed"].afresh()


@pytest.fixture
def faulty(pages: dict[str, Looking]) -> Looking:
    return pages["slip-shed"].afresh()


def test_asks_for_nothing_and_complains_of_nothing(shed: Looking) -> None:
    shed.roof("standAt('bare')")
    shed.settle()
    assert shed.asked <= {"file", "data", "blob"}
    assert shed.problems == []


@pytest.mark.parametrize("mark", ["E1-2", "R1-1", "C1-3"])
def test_tapped_piece_is_read_on_its_card(shed: Looking, mark: str) -> None:
    shed.roof("standAt('bare')")
    shed.tap(mark)
    piece = next(part for part in layout("boat-shed").parts if part.mark == mark)
    assert mark in shed.sheet()
    assert piece.run.name in shed.sheet()
    assert layout("boat-shed").scene.tape(piece.length) in shed.sheet()
    assert shed.roof("view.arrangement.selected") == mark


def test_tap_beside_a_thin_piece_still_finds_it(shed: Looking) -> None:
    shed.roof("standAt('street')")
    x, y = shed.probe("place('E1-2', 0)")
    shed.tap_at(x, y - (9 if shed.touch else 3))
    assert shed.roof("view.arrangement.selected") == "E1-2"


def test_tapping_the_sky_takes_the_light_off(shed: Looking) -> None:
    shed.roof("standAt('bare')")
    shed.tap("E1-2")
    box = shed.page.locator(".tw-stage").bounding_box()
    assert box
    shed.tap_at(box["x"] + 12, box["y"] + 12)
    assert shed.roof("view.arrangement.selected") is None


def test_stepping_hides_what_is_not_set_and_shows_what_is(shed: Looking) -> None:
    shed.page.click("[data-sheet=order]")
    shed.page.click("text=From bare deck")
    assert shed.probe("set()") == []
    for _ in range(3):
        shed.page.click("text=Set the next")
    first = shed.roof("view.data.steps.slice(0, 3).flatMap((step) => step.names)")
    assert shed.probe("set()") == sorted(first)
    assert "3 of" in shed.sheet()
    shed.page.click("text=One back")
    assert shed.probe("set()") == sorted(first[:2])


@ON_A_PHONE
def test_hidden_pieces_cannot_be_tapped_and_their_screws_are_gone(shed: Looking) -> None:
    shed.roof("standAt('bare')")
    shed.roof("setStep(1)")
    shed.tap("R1-1")
    assert shed.roof("view.arrangement.selected") != "R1-1"
    first = shed.roof("view.data.steps[0].names[0]")
    assert shed.probe("screws()") == sum(screw.mark == first for screw in layout("boat-shed").screws)


def test_a_finding_flies_there_and_is_read(faulty: Looking) -> None:
    faulty.page.click("[data-sheet=findings]")
    before = faulty.roof("view.camera.position.toArray()")
    faulty.page.click(".tw-row:has-text('lap too short')")
    text = faulty.sheet()
    finding = faulty.roof("view.data.findings.find((one) => one.rule === 'lap-too-short')")
    for said in (
        finding["message"],
        finding["measured"],
        finding["limit"],
        finding["source"],
        finding["remedy"],
    ):
        assert said in text
    assert faulty.roof("view.camera.position.toArray()") != before
    aim = faulty.roof("view.controls.target.toArray()")
    assert aim == pytest.approx(finding["point"], abs=1e-4)


def test_pins_do_not_pile_up(faulty: Looking) -> None:
    for place in ("finish", "bare", "bare back"):
        faulty.roof(f"standAt('{place}')")
        faulty.settle()
        boxes = faulty.probe("notes()")
        assert len(boxes) > 3
        for i, a in enumerate(boxes):
            for b in boxes[i + 1 :]:
                apart = a["right"] <= b["left"] or b["right"] <= a["left"]
                assert apart or a["bottom"] <= b["top"] or b["bottom"] <= a["top"]


def test_a_pin_opens_what_it_stands_for(faulty: Looking) -> None:
    faulty.roof("standAt('bare')")
    faulty.settle()
    pin = faulty.page.locator(".tw-note-pin:not([hidden])").first
    box = pin.bounding_box()
    assert box
    faulty.tap_at(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    assert faulty.roof("app.current.name") == "findings"
    about = faulty.roof("app.current.about")
    told = [one["message"] for one in faulty.roof("view.data.findings") if one["number"] == about]
    assert (told or [f"{len(about)} findings here"])[0] in faulty.sheet()


@ON_A_PHONE
def test_colors_change(shed: Looking) -> None:
    shed.page.click("[data-sheet=finish]")
    shed.page.click("[data-part=trim] [aria-label='Trim: brick']")
    assert shed.roof("view.looks.metals.trim.color.getHexString()") == "8c3b2e"
    shed.page.click("[data-part=panels] [aria-label='Panels: copper, new']")
    assert shed.roof("view.looks.metals.pan.metalness") > 0.5


@ON_A_PHONE
def test_colors_change_on_the_screen(shed: Looking) -> None:
    shed.roof("standAt('finish')")
    before = shed.probe("pixel(0.45, 0.45)")
    shed.roof("setLook({ panels: { color: '#a52a2a' } })")
    after = shed.probe("pixel(0.45, 0.45)")
    assert after[0] - before[0] > 20 and after[0] > 2 * after[1]


@ON_A_PHONE
def test_two_finishes_stand_side_by_side(shed: Looking) -> None:
    shed.page.click("[data-sheet=finish]")
    shed.page.check("text=Two finishes side by side")
    shed.page.click("[data-part=walls] [aria-label='Walls: harbor']")
    assert shed.roof("view.painter.other.walls") == "#2f5673"
    assert shed.roof("view.looks.look.walls") == layout("boat-shed").scene.colors.walls


@ON_A_PHONE
def test_a_picture_of_two_finishes_has_their_names(shed: Looking) -> None:
    words = (
        "view.painter.snapshot(900, 600).getContext('2d').getImageData(22, 14, 3, 3).data.slice(0, 3).join()"
    )
    shed.roof("standAt('finish')")
    alone = shed.roof(words)
    own = "document.getElementById('roof').roof.view.looks.look"
    shed.roof(f"view.painter.compareWith({{ ...{own}, walls: '#ffffff' }})")
    assert shed.roof(words) == "255,253,247" != alone


@ON_A_PHONE
def test_panels_come_off_and_layers_lift(shed: Looking) -> None:
    shed.roof("standAt('finish')")
    assert shed.probe("panels()") > 0
    shed.page.uncheck("[data-show=panels]")
    assert shed.probe("panels()") == 0
    height = "view.pieces.get('C1-1').body.position.y"
    assert shed.roof(height) == 0
    shed.page.locator("#tw-lift").fill("100")
    assert shed.roof(height) > 0.5


def test_tape_reads_between_two_points(shed: Looking) -> None:
    shed.roof("standAt('bare')")
    shed.roof("app.close()")
    shed.page.click("[aria-label^='Measure']")
    for share in (-0.3, 0.3):
        shed.tap("R1-1", share)
    said = shed.page.inner_text(".tw-prompt")
    inches = shed.probe("measured()")
    boat = layout("boat-shed")
    length = next(part.length for part in boat.parts if part.mark == "R1-1")
    assert boat.scene.tape(inches) in said
    assert inches == pytest.approx(0.6 * length, abs=3)
    slope = next(run.edge.slope for run in boat.runs if run.code == "R1")
    assert boat.scene.tape(inches * math.cos(slope))[:2] in said.split("level")[1]


def test_pins_are_in_no_tools_way(faulty: Looking) -> None:
    def tap_a_pin() -> None:
        faulty.settle()
        box = faulty.page.locator(".tw-note-pin:not([hidden])").first.bounding_box()
        assert box
        faulty.tap_at(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)

    faulty.roof("standAt('bare')")
    faulty.page.click("[aria-label^='Measure']")
    before = faulty.roof("app.current?.name")
    tap_a_pin()
    assert faulty.roof("app.current?.name") == before
    faulty.roof("app.use(null)")
    tap_a_pin()
    assert faulty.roof("app.current.name") == "findings"


def test_cut_through_a_lap_shows_both_pieces(shed: Looking) -> None:
    shed.roof("lookAt('R1-1', 'high')")
    shed.roof("view.arrangement.showPanels(false)")
    shed.roof("app.close()")
    shed.settle()
    shed.page.click("[aria-label^='Cut through']")
    lap = 2.0 / next(part.length for part in layout("boat-shed").parts if part.mark == "R1-1")
    shed.tap("R1-1", 0.5 - lap)
    text = shed.sheet()
    assert "R1-1" in text and "R1-2" in text and "over R1-1" in text
    assert "To scale" in text
    shed.page.click("text=5 times as thick")
    assert "not to scale" in shed.sheet()


@ON_A_PHONE
def test_card_goes_through_the_steps_of_an_end(shed: Looking) -> None:
    shed.roof("select('R1-1')")
    shed.page.click("[data-tab=low]")
    steps = shed.roof("view.pieces.get('R1-1').ends.low.steps")
    for number, step in enumerate(steps, 1):
        assert step["text"] in shed.page.inner_text(".tw-end")
        assert f"Step {number} of {len(steps)}" in shed.page.inner_text(".tw-end")
        if number < len(steps):
            shed.page.click(".tw-end >> text=Next step")
    assert shed.page.locator(".tw-end >> text=Next step").is_disabled()


@ON_A_PHONE
def test_screws_are_read_as_tape_marks(shed: Looking) -> None:
    shed.roof("select('R1-1')")
    shed.page.click("[data-tab=tape]")
    boat = layout("boat-shed")
    marks = [boat.scene.tape(screw.at) for screw in boat.screws if screw.mark == "R1-1"]
    assert shed.page.locator(".tw-marks li").all_inner_texts() == marks


def test_every_button_is_big_enough_for_a_thumb(shed: Looking) -> None:
    for sheet in ("roof", "pieces", "order", "findings", "finish"):
        shed.roof(f"open('{sheet}')")
        assert shed.probe("small()") == []


def test_nothing_is_wider_than_the_screen(faulty: Looking) -> None:
    for words in (
        "open('roof')",
        "open('pieces')",
        "open('findings', 1)",
        "select('R1-1')",
        "open('cautions')",
    ):
        faulty.roof(words)
        assert faulty.probe("fits()")


@ON_A_PHONE
def test_picture_is_saved(shed: Looking) -> None:
    shed.page.click("[aria-label='Save this picture']")
    with shed.page.expect_download() as download:
        shed.page.click(".tw-shapes >> text=As it is seen")
    assert download.value.suggested_filename.endswith(".png")
    assert Path(download.value.path()).read_bytes()[:8] == b"\x89PNG\r\n\x1a\n"


def test_keys_alone_do(shed: Looking) -> None:
    shed.page.focus(".tw-stage")
    before = shed.roof("view.camera.position.toArray()")
    shed.page.keyboard.press("ArrowLeft")
    assert shed.roof("view.camera.position.toArray()") != before
    shed.page.focus("[data-sheet=pieces]")
    shed.page.keyboard.press("Enter")
    shed.page.focus(".tw-row >> nth=0")
    shed.page.keyboard.press("Enter")
    assert shed.roof("app.current.name") == "piece"
    assert shed.roof("view.arrangement.selected") == "E1-1"
    assert "E1-1" in shed.page.inner_text(".tw-said")


@ON_A_PHONE
def test_names_of_the_look_from_buttons_go_there(shed: Looking) -> None:
    names = shed.roof("view.data.views.map((one) => one.title)")
    assert "From the street" in names and "From the ladder" in names
    assert any("Lap" in name for name in names) and any("Peak" in name for name in names)
    assert any("short piece" in name for name in names)
    shed.page.click("text=From the ladder")
    assert shed.roof("view.viewpoints.current.name") == "ladder"


@ON_A_PHONE
def test_the_line_of_a_step_lies_on_the_metal(shed: Looking) -> None:
    shed.roof("select('R1-1')")
    shed.page.click("[data-tab=low]")
    away = shed.probe("offMetal('R1-1')")
    assert len(away) > 0
    assert max(away) < 0.5  # inches; a tab that is folded round is marked while it is still straight


@ON_A_PHONE
def test_an_end_under_the_panels_is_seen_without_them(shed: Looking) -> None:
    assert shed.probe("panels()") > 0
    shed.roof("select('R1-1')")
    shed.page.click("[data-tab=low]")
    assert shed.probe("panels()") == 0
    shed.page.click("[aria-label='Whole roof']")
    assert shed.probe("panels()") > 0


@ON_A_PHONE
def test_screen_is_set_for_bright_sun_and_for_the_dark(shed: Looking) -> None:
    paper = "getComputedStyle(document.querySelector('.tw-sheet')).backgroundColor"
    for choice, color in (("Bright sun", "rgb(255, 255, 255)"), ("Dark", "rgb(23, 32, 38)")):
        shed.page.check(f"text={choice}")
        assert shed.page.evaluate(paper) == color
    shed.page.check("text=As the device has it")


@ON_A_PHONE
def test_each_row_of_a_cap_has_its_own_marks(shed: Looking) -> None:
    shed.roof("select('C1-1')")
    shed.page.click("[data-tab=tape]")
    boat = layout("boat-shed")
    rows: dict[float, list[str]] = {}
    for screw in sorted(
        (one for one in boat.screws if one.mark == "C1-1"), key=lambda one: (one.across, one.at)
    ):
        rows.setdefault(round(screw.across, 4), []).append(boat.scene.tape(screw.at))
    assert len(rows) == 2
    told = [row.locator("li").all_inner_texts() for row in shed.page.locator(".tw-card .tw-block").all()]
    assert told == list(rows.values())


@ON_A_PHONE
def test_a_low_sun_warms_the_finished_look_and_leaves_the_workshop_its_light(shed: Looking) -> None:
    shed.afresh()
    from_, height = shed.roof("view.sky.from"), shed.roof("view.sky.height")
    blue = "view.sky.sun.color.b"

    def lit(apart: bool) -> float:
        shed.roof(f"view.arrangement.tellApart({'true' if apart else 'false'})")
        shed.roof("view.painter.drawNow()")
        return float(shed.roof(blue))

    noon = lit(False)
    shed.roof("view.setSun(200, 6)")
    assert lit(False) < 0.8 * noon
    assert lit(True) == pytest.approx(noon, abs=0.01)
    assert lit(False) < 0.8 * noon
    shed.roof(f"view.setSun({from_}, {height})")
