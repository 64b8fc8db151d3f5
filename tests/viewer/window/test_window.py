"""The window, driven by its keys and clicks without a screen; and once for real, on a screen in memory."""

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from debian import bring
from zoo import layout

from trimwright.model.checks.run import check
from trimwright.model.message import message
from trimwright.viewer.display.camera import Shot
from trimwright.viewer.display.stage import Stage
from trimwright.viewer.display.view import ViewPoint
from trimwright.viewer.render.picture import drawn, scenery
from trimwright.viewer.window.drawing import CHOSEN
from trimwright.viewer.window.reading import Reading, Row, reading_of
from trimwright.viewer.window.state import KEYS, at_view, pressed, seen_of
from trimwright.viewer.window.texts import FOOT, card_of
from trimwright.viewer.window.window import Window, WindowError, require_screen
from trimwright.viewer.words.speaker import Speaker

SCENE = "slip-shed"
SIZE = (480, 300)
Saved = list[tuple[Stage, ViewPoint, str]]


@pytest.fixture(scope="module")
def opened() -> Iterator[tuple[Window, Saved]]:
    saved: Saved = []

    def save(stage: Stage, view: ViewPoint, ending: str) -> Path:
        saved.append((stage, view, ending))
        return Path("out/roof.png")

    roof = layout(SCENE)
    window = Window(roof, check(roof), save, off_screen=True, size=SIZE)
    yield window, saved
    window.close()


@pytest.fixture
def window(opened: tuple[Window, Saved]) -> Window:
    one, saved = opened
    saved.clear()
    for key in ("Escape", "1", "3"):
        one.press(key)
    return one


def pixel(window: Window, mark: str) -> tuple[float, float]:
    """Return a pixel, from the lower left corner, that shows a piece."""
    label = next(one for one in window.stage.labels if one.mark == mark)
    shot = window.drawing.shot()
    faces = np.einsum("ij,ij->i", label.normals, shot.eye - label.points) > 0
    seen, _ = shot.project(label.points[faces], SIZE)
    return float(seen[0, 0]), SIZE[1] - float(seen[0, 1])


@pytest.mark.parametrize("mark", ["E1-2", "R1-2"])
def test_a_click_reads_the_piece(window: Window, mark: str) -> None:
    window.click(*pixel(window, mark))
    assert window.state.chosen == mark
    reading = reading_of(window.layout, window.findings, window.stage, window.steps, window.state)
    assert reading is not None
    told = {str(row.name): str(row.says) for row in reading.rows}
    part = next(part for part in window.layout.parts if part.mark == mark)
    assert str(reading.heading) == mark
    assert told["length"].startswith(window.layout.scene.tape(part.length))
    assert told["run"] == part.run.name


def test_a_click_beside_the_roof_lets_go(window: Window) -> None:
    window.click(*pixel(window, "E1-2"))
    window.click(3, SIZE[1] - 3)
    assert window.state.chosen is None


def looks(window: Window) -> np.ndarray:
    """Return what the window shows, ``(h, w, 3)``."""
    window.plotter.render_window.Render()
    return np.asarray(window.plotter.screenshot(return_img=True)).astype(int)


def test_the_chosen_piece_has_the_color_of_a_mark(window: Window) -> None:
    window.overlay.show(False)
    before = looks(window)
    window.click(*pixel(window, "E1-2"))
    window.overlay.show(False)
    after = looks(window)
    changed = np.abs(after - before).max(axis=2) > 30
    assert changed.any()
    red, green, blue = after[changed].mean(axis=0)
    assert blue < 0.6 * green < red
    assert any((piece.colors == CHOSEN).all() for piece in window.drawing.pieces), "at rest too"


def test_at_rest_it_shows_what_the_picture_shows(window: Window) -> None:
    window.press("t")
    window.press("c")
    stage, view = seen_of(window.stage, window.steps, window.state)
    shot = window.drawing.shot()
    meant = np.asarray(scenery(stage, replace(view, shots=(shot,)), SIZE)).astype(int)
    same = np.abs(looks(window) - meant).max(axis=2) <= 1
    assert same[: SIZE[1] - FOOT].all()


def test_stepping_takes_pieces_off_and_sets_them(window: Window) -> None:
    count = len(window.steps)
    window.press("Delete")
    assert window.state.done == 0
    assert window.drawing.under(*bar(window)) is None
    window.press("Right")
    (first,) = window.steps[0].names
    assert (window.state.done, window.state.chosen) == (1, first)
    assert window.drawing.under(*pixel(window, first)) == first
    window.press("Left")
    assert window.drawing.under(*pixel(window, first)) is None
    window.press("End")
    assert window.state.done == count


def bar(window: Window) -> tuple[float, float]:
    return pixel(window, "E1-2")


def test_findings_are_gone_to_and_read(window: Window) -> None:
    window.press("n")
    assert (window.state.finding, window.state.pins) == (1, True)
    seen, away = window.drawing.shot().project(np.array([window.stage.pins[0].point]), SIZE)
    assert np.abs(seen[0] - np.array(SIZE) / 2).max() < 2
    assert away[0] > 0
    reading = reading_of(window.layout, window.findings, window.stage, window.steps, window.state)
    assert reading is not None
    assert window.findings[0].rule in str(reading.heading)
    assert str(window.findings[0].remedy).rstrip(".") in " ".join(str(row.says) for row in reading.rows)
    window.press("m")
    assert window.state.finding == len(window.findings)


def test_a_click_on_a_pin_goes_to_its_finding(window: Window) -> None:
    window.press("f")
    assert window.pins
    for number, box in dict(window.pins).items():
        window.press("Home")
        window.press("f")
        window.click((box.left + box.right) / 2, SIZE[1] - (box.top + box.bottom) / 2)
        assert (window.state.finding, window.state.chosen) == (number, None)
    window.press("f")
    assert window.pins == {}


def test_a_saved_view_is_the_picture_of_the_command(window: Window, opened: tuple[Window, Saved]) -> None:
    window.press("s")
    stage, view, ending = opened[1][-1]
    assert ending == ""
    same = drawn(window.stage, window.stage.view("bare"), (320, 200))
    assert np.array_equal(np.asarray(drawn(stage, view, (320, 200))), np.asarray(same))


def test_a_view_that_was_turned_is_saved_as_it_is_seen(window: Window, opened: tuple[Window, Saved]) -> None:
    shot = window.drawing.shot()
    turned = Shot(shot.eye * [-1, 1, 1], shot.target, shot.up, shot.width, shot.height)
    window.look(turned)
    window.press("s")
    _, view, ending = opened[1][-1]
    assert ending == "-seen"
    assert np.allclose(view.shots[0].eye, turned.eye)


def test_every_key_that_is_listed_does_something() -> None:
    roof = layout(SCENE)
    from trimwright.viewer.display.setting_steps import steps_of
    from trimwright.viewer.display.stage import stage_of

    stage, steps = stage_of(roof, check(roof)), steps_of(roof)
    start = at_view(stage, "findings", len(steps) - 2)
    others = {"click", "s", "q", "Home"}
    for keys, _ in KEYS:
        for key in str(keys).replace(" to ", ", ").split(", "):
            state = pressed("h", start, stage, steps) if key == "Escape" else start
            if key not in others:
                assert pressed(key, state, stage, steps) != state, key
    assert pressed("w", start, stage, steps) == start


def test_an_untouched_view_is_the_view_point_itself() -> None:
    from trimwright.viewer.display.setting_steps import steps_of
    from trimwright.viewer.display.stage import stage_of

    stage, steps = stage_of(layout("boat-shed")), steps_of(layout("boat-shed"))
    for name in stage.album:
        seen, view = seen_of(stage, steps, at_view(stage, name, len(steps)))
        assert seen is stage
        assert view is stage.view(name)


def test_a_long_card_ends_where_the_window_does() -> None:
    rows = tuple(Row(str(i), "words " * 30) for i in range(50))
    card = card_of(Reading(message("Much"), rows), 200, Speaker())
    assert card.height == 200


def test_without_a_screen_the_error_says_what_to_use(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.delenv("DISPLAY", raising=False)
    with pytest.raises(WindowError, match="use trimwright page or picture"):
        require_screen()


def test_for_real_on_a_screen_in_memory(tmp_path: Path) -> None:
    scene = next(Path(__file__).parents[3].glob("scenes/oar-store.toml"))
    xdotool = str(bring("xdotool", "xdotool"))
    reading, writing = os.pipe()
    screen = subprocess.Popen(
        [str(bring("Xvfb", "xvfb")), "-displayfd", str(writing), "-screen", "0", "1400x900x24"],
        pass_fds=[writing],
        stderr=subprocess.DEVNULL,
    )
    os.close(writing)
    try:
        with os.fdopen(reading) as said:
            surroundings = os.environ | {"DISPLAY": f":{said.readline().strip()}"}
        command = [sys.executable, "-P", "-c", "from trimwright.viewer.cli import main; main()"]
        process = subprocess.Popen([*command, "window", str(scene)], cwd=tmp_path, env=surroundings)
        subprocess.run(
            [xdotool, "search", "--sync", "--name", "Trimwright"],
            env=surroundings,
            check=True,
            timeout=60,
            stdout=subprocess.DEVNULL,
        )
        picture, ends = tmp_path / "out" / "oar-store-bare.png", time.monotonic() + 120
        while not picture.exists() and time.monotonic() < ends:
            subprocess.run([xdotool, "key", "s"], env=surroundings, check=True)
            waits = (
                time.monotonic() + 20
            )  # a key may come before the window listens; a picture takes its time
            while not picture.exists() and time.monotonic() < waits:
                time.sleep(0.2)
        subprocess.run([xdotool, "key", "q"], env=surroundings, check=True)
        assert process.wait(120) == 0
        asked = tmp_path / "asked.png"
        subprocess.run([*command, "picture", str(scene), "--view", "bare", "-o", str(asked)], check=True)
        assert asked.read_bytes() == picture.read_bytes()
    finally:
        screen.terminate()
        screen.wait()
