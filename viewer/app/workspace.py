"""A workspace: one browser's scene, its history, and the answers to it. Workspaces know nothing of each other."""

from __future__ import annotations

import asyncio
import secrets
import tomllib
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from typing import Any

from trimwright.model.errors import Problem, SceneError, TrimwrightError
from trimwright.model.message import counted, message
from trimwright.model.scene.read import scene_from

from ..page.browser_words import browser_words
from ..page.page import SCRIPTS
from ..words.speaker import Speaker, speaker_for
from .beginnings import beginnings
from .better import SINCE, Better, better_of
from .fields import Field, shown, written
from .finishing import with_finish, with_look, without_look
from .folder import Folder, FolderError, scene_name
from .form import sections_of
from .history import History
from .one_at_a_time import InTurn
from .opening_edits import with_opening
from .outline_edits import with_outline_edit
from .results import DrawnRoof, Result, drawn_anyway, remedied, remedies_of, result_of, tried
from .scene_text import EditError, require_toml, value_at, with_changes, with_value
from .scripts import STATIC
from .setting_aside import CHOICES, FORM, Place, SetAside, draws_itself
from .starts import starts_of, with_start
from .state import choice_told, state_of

Values = dict[str, Any]

LONGEST = 2_000
"""Characters that a field takes."""

DRAWING = 0.5
"""Seconds that the rest of an answer waits at most for the browser to draw what is seen: it would slow that down."""

TELLING = 0.1
"""Seconds between two times that the text is kept and told: changes that come faster are told together."""

_WORKER = ThreadPoolExecutor(1, "answers")
"""Works out one answer at a time: two at once would both be late."""


class Workspace:
    """What one browser works on.

    Attributes:
        key: Whose it is; nobody guesses it.
        name: Name of the scene.
        saved: The text as it stands in the folder; None when it does not.
        history: The text and what it was.
        drawn: What is seen of the last text that could be built.
        answer: The last whole answer: to the same text, or, for as long as that takes, to one before.
        number: Counts the sights.
        problems: What keeps the present text from an answer.
        sent: The parts of the view that the browser has.
        refused: What could not be put on the workspace before the browser was there.
        here: Whether its browser is there.
        heard: Number of the last change that came from the browser; they come in a row.
        aside: What was put away when another form or metal was chosen.
        answered: The text that was answered last, or is being answered.
        mended: Whether what is seen has values from before in the place of some that cannot be read.
        better: What the last search for a better layout came to.
    """

    def __init__(
        self,
        key: str,
        folder: Folder,
        tell: Callable[[Values], None],
        at_work: Callable[[], set[str]] = set,
    ) -> None:
        """Begin with a plain gable.

        Args:
            key: Whose it is.
            folder: The working folder.
            tell: Is called with whatever the browser should know.
            at_work: Gives the keys of all that somebody is at.
        """
        self.key, self.folder, self.tell, self.at_work = key, folder, tell, at_work
        self.name = next(iter(beginnings()))
        self.saved: str | None = None
        self.history = History(beginnings()[self.name])
        self.drawn: DrawnRoof | None = None
        self.result: Result | None = None
        self.number = 0
        self.problems: tuple[Problem, ...] = ()
        self.sent: dict[str, bytes] = {}
        self.refused = ""
        self.here = False
        self.heard = 0
        self.mended = False
        self.better: Better | None = None
        self.aside = SetAside()
        self._language = ""
        self.answered: str | None = None
        self._work: asyncio.Task[None] | None = None
        self._seen = asyncio.Event()
        self._telling, self._unkept = InTurn(self._tell_state, TELLING), False

    @property
    def text(self) -> str:
        """The text of the scene as it is now."""
        return self.history.text

    @property
    def whole(self) -> bool:
        """Whether all is answered of what is seen."""
        return self.result is not None and self.result.drawn is self.drawn

    def told(self, error: TrimwrightError) -> str:
        """Return all problems of an error in a row, as the scene that is worked on asks for it."""
        say = speaker_for(self.text).alone()
        return " ".join(say(problem) for problem in error.problems)

    async def act(self, what: Mapping[str, Any]) -> None:
        """Do what the browser asks for, and tell it what came of it; a refusal is told in one line."""
        if what.get("do") == "drawn":
            self._seen.set()
            return
        if self._is_heard(what.get("edit")):
            self._do(what)
        await self._telling.soon()
        await self._answer()

    def _is_heard(self, edit: object) -> bool:
        """Return whether a change is the next one; one that is here already, or before its turn, is sent again."""
        self.heard += edit == self.heard + 1
        return edit is None or edit == self.heard

    def _do(self, what: Mapping[str, Any]) -> None:
        """Do what the browser asks for, or tell it why not."""
        acts: Mapping[str, Callable[[Mapping[str, Any]], None]] = {
            "ready": lambda _: self._greet(),
            "change": self._change,
            "outline": self._change_outline,
            "opening": lambda asked: self._put(with_opening(self.text, asked)),
            "undo": lambda _: self._step(self.history.undone()),
            "redo": lambda _: self._step(self.history.redone()),
            "open": lambda asked: self.begin(
                self.folder.read(_word(asked, "name")), _word(asked, "name"), True
            ),
            "begin": self._begin,
            "resume": self._resume,
            "discard": lambda asked: self.folder.discard(_word(asked, "key")),
            "save": self._save,
            "start": lambda asked: self._put(with_start(self.text, _word(asked, "start"))),
            "finish": lambda asked: self._put(with_finish(self.text, asked, self.aside)),
            "look": lambda asked: self._put(with_look(self.text, _word(asked, "name"), asked)),
            "unlook": lambda asked: self._put(without_look(self.text, int(asked.get("number", -1)))),
            "remedy": self._remedy,
            "better": lambda _: self._take_better(),
        }
        act = acts.get(str(what.get("do")))
        try:
            if act is not None:
                act(what)
        except TrimwrightError as error:
            self.tell({"refused": self.told(error)})

    def begin(self, text: str, name: str, saved: bool = False) -> None:
        """Take up another scene, with a history of its own; what is not saved of the one before is left lying.

        Raises:
            TrimwrightError: The text is no TOML, or the name no name.
        """
        name = scene_name(name)
        require_toml(text)
        if self.text != self.saved and self.text not in beginnings().values():
            self.folder.keep(secrets.token_hex(8), self.name, self.text)
        self.name, self.saved = name, text if saved else None
        self.history, self.aside = History(text), SetAside()
        self._keep()

    def begin_with(self, text: str, name: str, saved: str | None) -> None:
        """Lie ready with ``text``: nothing came before it, and nothing is kept until it changes.

        Raises:
            TrimwrightError: It is no TOML.
        """
        require_toml(text)
        self.name, self.saved, self.history = name, saved, History(text)

    def follow(self, other: Workspace) -> None:
        """Lie ready with what ``other`` has, its history with it."""
        self.name, self.saved, self.history = other.name, other.saved, other.history

    def replace(self, text: str) -> None:
        """Put another text in the place of the present one.

        Raises:
            TrimwrightError: It is no TOML.
        """
        require_toml(text)
        self._put(text)

    def fresh(self) -> dict[str, bytes]:
        """Return the parts of the view that changed since this was asked for last."""
        view = dict(self.drawn.view) if self.drawn else {}
        if self.result and self.whole:
            view |= self.result.view
        changed = {name: part for name, part in view.items() if self.sent.get(name) != part}
        self.sent |= changed
        return changed

    async def latest(self) -> Result | None:
        """Return the last whole answer, once the present text has its own or cannot have one."""
        await self._answer()
        return self.result

    async def compared(self) -> Values:
        """Return the starting rules side by side, or why there are none."""
        try:
            return await asyncio.get_running_loop().run_in_executor(_WORKER, starts_of, self.text)
        except TrimwrightError as error:
            return {"problem": self.told(error)}

    async def searched(self) -> Values:
        """Return what a search for a better layout came to, or why there is none."""
        work = asyncio.get_running_loop().run_in_executor
        try:
            self.better = await work(_WORKER, better_of, self.text, self._is_present)
        except TrimwrightError as error:
            return {"problem": self.told(error)}
        return self.better.told

    def _greet(self) -> None:
        self.sent = {}
        self._language = ""
        self._tell_words()
        if self.refused:
            self.tell({"refused": self.refused})
        self.refused = ""

    def _change(self, asked: Mapping[str, Any]) -> None:
        field = self._field(asked.get("path"))
        if shown(value_at(tomllib.loads(self.text), field.path)) is None and field.kind != "here":
            raise EditError(
                message(
                    "{label}: has more to it than a field holds; change it under File, As text",
                    label=field.label,
                )
            )
        text = str(asked.get("value", ""))[:LONGEST]
        value, path = written(field, text), field.path
        if value is None and path[:2] == ("rules", "limits") and path[-1] == "value":
            path = path[:-1]  # without its value a limit is none: that of the rule set holds again
        new = self._chosen(path, value) if path in CHOICES else with_value(self.text, path, value)
        self._put(new, asked.get("touch"))

    def _change_outline(self, asked: Mapping[str, Any]) -> None:
        turned = asked.get("what") == "porch" and draws_itself(self.text)
        text = self._chosen(FORM, "outline") if turned else self.text
        self._put(with_outline_edit(text, asked), asked.get("touch"))

    def _chosen(self, path: Place, value: str) -> str:
        new, away = self.aside.chosen(self.text, path, value)
        if said := choice_told(self.text, new, path, away, self._tell_words()):
            self.tell({"said": said})
        return new

    def _field(self, path: object) -> Field:
        """Return the field at ``path``; a browser can change nothing else."""
        for section in sections_of(self.text, self.drawn.layout if self.drawn else None):
            for field in section.fields:
                if list(field.path) == path:
                    return field
        raise EditError(message("this field is not part of the scene any more"))

    def _put(self, text: str, touch: object = None) -> None:
        """Put another text in the place of the present one, a step that can be taken back, or more of the last one."""
        self._step(self.history.changed(text, str(touch)[:40] if touch else None))

    def _step(self, history: History) -> None:
        if history.text != self.text:
            self._unkept = True
        self.history = history

    def _begin(self, asked: Mapping[str, Any]) -> None:
        name, texts = _word(asked, "name"), beginnings()
        if name not in texts:
            raise FolderError(message("there is no such scene to begin with"))
        self.begin(texts[name], name)

    def _resume(self, asked: Mapping[str, Any]) -> None:
        copy = self.folder.copy_of(_word(asked, "key"))
        if copy is None:
            raise FolderError(message("this working copy is gone"))
        text = self.folder.kept(copy)
        saved = self.folder.read(copy.name) if self.folder.has(copy.name) else None
        self.begin(text, copy.name)
        self.saved = saved
        if copy.key != self.key:
            self.folder.discard(copy.key)

    def _save(self, asked: Mapping[str, Any]) -> None:
        name = scene_name(_word(asked, "name")) if "name" in asked else self.name
        try:
            scene_from(self.text, "")
        except SceneError as error:
            told = counted(
                "not saved: {count} value of it cannot be read; the working copy has all",
                "not saved: {count} values of it cannot be read; the working copy has all",
                count=len(error.problems),
            )
            raise FolderError(told) from None
        if not asked.get("over") and (
            why := self.folder.in_the_way(name, self.name, (self.saved, self.text))
        ):
            self.tell({"over": name, "why": why})
            return
        self.folder.write(name, self.text)
        self.name, self.saved = name, self.text
        self._keep()
        self.tell({"said": f"saved as {name}.toml"})

    def _take_better(self) -> None:
        """Make the changes that a search found, if the text is still the one that it was about."""
        if self.better is None or self.better.text != self.text:
            raise EditError(SINCE)
        self._put(with_changes(self.text, self.better.changes))

    def _remedy(self, asked: Mapping[str, Any]) -> None:
        """Make the change that removes a group of findings, if the text is still the one that they are of."""
        change = remedies_of(self.result, self.text).get(str(asked.get("group")))
        if change is None or asked.get("number") != self.number:
            raise EditError(message("the scene has changed since; look at its findings again"))
        self._put(with_changes(self.text, change))

    def _keep(self) -> None:
        """Write the working copy; where that is refused, say so and go on."""
        self._unkept = False
        try:
            self.folder.keep(self.key, self.name, self.text)
        except FolderError as error:
            told = (
                message("no working copy is kept: {problem}", problem=one.message) for one in error.problems
            )
            self.tell({"refused": self.told(FolderError(*told))})

    def _tell_words(self) -> Speaker:
        """Return the speaker of the present text; tell its words when they are others than the browser has."""
        say = speaker_for(self.text).alone()
        if say.language.code != self._language:
            self._language = say.language.code
            self.tell({"words": browser_words(say.language, SCRIPTS, STATIC)})
        return say

    def _tell_state(self) -> None:
        if self._unkept:
            self._keep()
        self.tell(state_of(self, self._tell_words()))

    async def _answer(self) -> None:
        """See that the present text is answered; a text that is out of date by then is passed over."""
        if self._work is None or self._work.done():
            self._work = asyncio.create_task(self._answer_all())
        await asyncio.shield(self._work)

    async def _answer_all(self) -> None:
        """Show what is seen of the text first; the rest of the answer follows, unless somebody has written on."""
        work = asyncio.get_running_loop().run_in_executor
        while self.text != self.answered:
            self.answered, drawn, self.problems = await work(
                _WORKER, lambda: drawn_anyway(self.text, self.drawn)
            )
            self.mended = drawn is not None and drawn.text != self.answered
            if drawn is not None:
                self.drawn = drawn
                self.number += 1
                self._seen = asyncio.Event()
            self._tell_state()
            if self.sent:
                with suppress(asyncio.TimeoutError):
                    await asyncio.wait_for(self._seen.wait(), DRAWING)
            if drawn is not None and self.text == self.answered:
                result, more = await work(_WORKER, tried, result_of, drawn)
                self.problems = (*self.problems, *more)
                self.result = result or self.result
                self._tell_state()
                if result is not None and result.findings:
                    self.result = await work(_WORKER, remedied, result, self._is_present)
                    self._tell_state()

    def _is_present(self, text: str) -> bool:
        """Return whether nobody has written on."""
        return text == self.text


def _word(asked: Mapping[str, Any], name: str) -> str:
    return str(asked.get(name, ""))[:LONGEST]
