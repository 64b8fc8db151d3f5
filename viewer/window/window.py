"""The window: keys and clicks change what is shown; a saved view is the picture that the command draws."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pyvista as pv

from trimwright.model.checks.record import Finding
from trimwright.model.errors import TrimwrightError
from trimwright.model.layout import Layout
from trimwright.model.message import Message, message

from ..display.camera import Shot
from ..display.placing import Box
from ..display.setting_steps import steps_of
from ..display.stage import Stage, stage_of
from ..display.view import METAL, PANELS
from ..render.picture import seen_from
from ..words.speaker import speaker_of
from .drawing import RoofPlot
from .overlay import Overlay
from .reading import reading_of
from .state import State, at_view, pressed, seen_of
from .texts import CARD, FOOT, card_of, foot_of, noted

SIZE = (1280, 800)
FIRST = "bare"
STILL = 250
"""How long the mouse rests before notes are written, milliseconds."""

CLICK = 5
"""How far the mouse may stray between press and release of a click, pixels."""

FROM = 34.0
"""How far off a piece starts that comes to its place, inches."""

EDGE = 10
"""Room round the card, pixels."""

CLOSE_UP = 46.0
"""How much is seen round a finding, inches."""


WITHOUT_SCREEN = {"vtkEGLRenderWindow", "vtkOSOpenGLRenderWindow"}
"""What the drawing library opens instead of a window where no screen can be reached."""

NO_SCREEN = message(
    "there is no screen to open a window on; run this on a desktop, or use trimwright page or picture"
)


class WindowError(TrimwrightError):
    """A window that cannot be opened here."""


def require_screen() -> None:
    """Return if there is a screen to open a window on.

    Raises:
        WindowError: there is none.
    """
    if sys.platform.startswith("linux") and not os.environ.get("DISPLAY"):
        raise WindowError(NO_SCREEN)


class Window:
    """The desktop window of one roof.

    Args:
        layout: The roof.
        findings: What is wrong with it.
        save: Called with the stage and the view to save as a picture; returns where it went.
        off_screen: Draw without a screen, for tests.
        size: Width and height, pixels.
    """

    def __init__(
        self,
        layout: Layout,
        findings: Sequence[Finding],
        save: Callable[[Stage, Any, str], Path],
        off_screen: bool = False,
        size: tuple[int, int] = SIZE,
    ) -> None:
        """Build the window, showing every piece of trim."""
        self.layout, self.findings, self.save = layout, findings, save
        self.stage, self.steps = stage_of(layout, findings), steps_of(layout)
        self.state = at_view(self.stage, FIRST, len(self.steps))
        self.moved = False
        self.said: Message | str = ""
        self.pins: dict[int, Box] = {}
        self.plotter = pv.Plotter(
            off_screen=off_screen,
            lighting="none",
            window_size=list(size),
            title=f"{layout.scene.title}: Trimwright",
        )
        self.plotter.enable_anti_aliasing("msaa", multi_samples=4)
        self.drawing = RoofPlot(self.plotter)
        self.overlay = Overlay(self.plotter)
        self._down: tuple[int, int] | None = None
        self._timer: int | None = None
        self._draw(self.stage.view(FIRST).shots[0])

    def show(self) -> None:
        """Open the window, and return when it is closed.

        Raises:
            WindowError: the screen cannot be reached.
        """
        self.listen()
        if self.plotter.render_window.GetClassName() in WITHOUT_SCREEN:
            raise WindowError(NO_SCREEN)
        self.plotter.show()

    def listen(self) -> None:
        """Take the mouse and the keys from the window's own habits."""
        iren = self.plotter.iren
        iren.initialize()
        iren.clear_key_event_callbacks()
        iren.enable_terrain_style(mouse_wheel_zooms=True, shift_pans=True)
        interactor = iren.interactor
        interactor.RemoveObservers("CharEvent")
        interactor.AddObserver("KeyPressEvent", lambda one, _: self.press(one.GetKeySym()))
        interactor.AddObserver("LeftButtonPressEvent", lambda *_: self._pressed(), 10.0)
        interactor.AddObserver("LeftButtonReleaseEvent", lambda *_: self._released(), 10.0)
        interactor.AddObserver("TimerEvent", lambda *_: self._rested())
        interactor.AddObserver("ConfigureEvent", lambda *_: self._soon())
        style = interactor.GetInteractorStyle()
        style.AddObserver("StartInteractionEvent", lambda *_: self._moving())
        style.AddObserver("EndInteractionEvent", lambda *_: self._soon())
        for event in ("MouseWheelForwardEvent", "MouseWheelBackwardEvent"):
            interactor.AddObserver(event, lambda *_: self._wheeled())

    def press(self, key: str) -> None:
        """Do what a key asks for."""
        if key == "q":
            self.close()
            return
        if key == "s":
            self._save()
            return
        self._take(pressed(key.lower() if len(key) == 1 else key, self.state, self.stage, self.steps), key)

    def click(self, x: float, y: float) -> None:
        """Read the finding or the piece at a pixel, counted from the lower left corner; beside all, let go of it."""
        down = self.plotter.render_window.GetActualSize()[1] - y
        pin = next((number for number, box in self.pins.items() if box.holds(x, down)), None)
        chosen = None if pin else self.drawing.under(x, y)
        self._take(replace(self.state, chosen=chosen, finding=pin))

    def _take(self, state: State, key: str = "") -> None:
        """Draw another state; where a key led to it, the way that the key asks for."""
        before, self.state, self.said = self.state, state, ""
        if state.view != before.view or key == "Home":
            self._draw(self.stage.view(state.view).shots[0])
        elif state.finding is not None and state.finding != before.finding:
            self.moved = True
            self._draw(self._at_finding(state.finding))
        elif state != before:
            if state.done == before.done + 1 and key == "Right":
                self._slide_in(before)
            self._draw()

    def look(self, shot: Shot) -> None:
        """Look from another place, as the mouse does."""
        self.moved = True
        self.drawing.aim(shot)
        self.write()

    def close(self) -> None:
        """Close the window."""
        self.plotter.close()

    def write(self) -> None:
        """Lay the picture of what is seen over it, with notes, card and foot."""
        wide, high = self.plotter.render_window.GetActualSize()
        say = speaker_of(self.layout.scene)
        reading = reading_of(self.layout, self.findings, self.stage, self.steps, self.state)
        card = None if reading is None else card_of(reading, high - FOOT - 2 * EDGE, say)
        box = None if card is None else Box(EDGE, EDGE, EDGE + CARD, EDGE + card.height)
        stage, shown = seen_of(self.stage, self.steps, self.state)
        done, count = self.state.done, len(self.steps)
        setting = message("{done} of {count} steps done", done=done, count=count)
        says = self.said or (setting if done < count else shown.title)
        picture, frame = seen_from(stage, shown, self.drawing.pieces, self.drawing.shot(), (wide, high))
        notes, self.pins = noted(picture, frame, stage, shown, box)
        self.overlay.lay("notes", notes)
        self.overlay.lay("card", card, (EDGE, high - EDGE - card.height) if card else (0, 0))
        self.overlay.lay("foot", foot_of(self.layout.scene.title, says, wide, say))
        self.overlay.show(True)
        self.plotter.render_window.Render()

    def _draw(self, shot: Shot | None = None) -> None:
        """Draw what the state shows; from ``shot``, or from where it is looked from now."""
        stage, shown = seen_of(self.stage, self.steps, self.state)
        self.drawing.stand(stage, shown, self.state.chosen)
        if shot is not None:
            self.moved = self.state.finding is not None
            self.drawing.aim(shot)
        self.write()

    def _at_finding(self, number: int) -> Shot:
        """Return a close look at a finding, from the side that it is seen from now."""
        pin = self.stage.pins[number - 1]
        now = self.drawing.shot()
        label = next((one for one in self.stage.labels if one.mark == pin.mark), None)
        way = now.axes[2] if label is None else label.normals.mean(axis=0) + now.axes[2] * 0.4
        way = way / np.linalg.norm(way)
        way = way if way[2] > 0.25 else way + np.array([0, 0, 0.4])
        up = np.array([0.0, 0.0, 1.0])
        return Shot(
            pin.point + way / np.linalg.norm(way) * CLOSE_UP * 2.5, pin.point, up, CLOSE_UP * 1.6, CLOSE_UP
        )

    def _slide_in(self, before: State) -> None:
        """Let what the next step sets come to its place."""
        step = self.steps[before.done]
        kinds = METAL if step.kind == "trim" else PANELS
        bodies = tuple(body for body in self.stage.bodies if body.kind in kinds and body.name in step.names)
        _, view = seen_of(self.stage, self.steps, self.state)
        self.overlay.show(False, "notes")
        self.drawing.bring(replace(self.stage, bodies=bodies, screws=()), view, step.away * FROM)

    def _save(self) -> None:
        """Save what is seen as a picture: the same as the command's when the view point was not left."""
        stage, view = seen_of(self.stage, self.steps, self.state)
        if self.moved:
            view = replace(view, shots=(self.drawing.shot(),))
        changed = self.moved or view is not self.stage.view(self.state.view)
        self.said = message("drawing the picture ...")
        self.write()
        try:
            path = self.save(stage, view, "-seen" if changed else "")
            self.said = message("written to {file}", file=str(path))
        except TrimwrightError as error:
            self.said = speaker_of(self.layout.scene)(error)
        self.write()

    def _pressed(self) -> None:
        self._down = self.plotter.iren.interactor.GetEventPosition()

    def _released(self) -> None:
        x, y = self.plotter.iren.interactor.GetEventPosition()
        down, self._down = self._down, None
        if down is not None and abs(x - down[0]) + abs(y - down[1]) <= CLICK:
            self.click(x, y)

    def _moving(self) -> None:
        self.moved = True
        self.overlay.show(False, "notes")

    def _wheeled(self) -> None:
        self._moving()
        self._soon()

    def _soon(self) -> None:
        """Write the notes when the mouse has rested for a while."""
        interactor = self.plotter.iren.interactor
        if self._timer is not None:
            interactor.DestroyTimer(self._timer)
        self._timer = interactor.CreateOneShotTimer(STILL)

    def _rested(self) -> None:
        self._timer = None
        self.write()
