"""What a browser is told of its workspace: the form, what can be done, and what is in short."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping, Sequence
from typing import Any, Protocol

from trimwright.model.errors import Problem, key_said
from trimwright.model.message import Fine, Listed, Message, message
from trimwright.model.metals import METAL_WORDS, METALS

from ..report.changes import change_told
from ..report.survey import survey_told
from ..words.speaker import Speaker
from .beginnings import beginnings
from .downloads import FILES
from .folder import Folder
from .form import form_of, sizes_of
from .form_sections import FORMS, sections
from .history import History
from .outline_told import outline_told
from .results import DrawnRoof, Result, remedies_of
from .scene_text import value_at
from .setting_aside import Place
from .unfinished import unfinished_in

Values = dict[str, Any]


class Working(Protocol):
    """What is told of a workspace; `Workspace` says what each is."""

    key: str
    heard: int
    name: str
    saved: str | None
    answered: str | None
    history: History
    drawn: DrawnRoof | None
    result: Result | None
    number: int
    problems: tuple[Problem, ...]
    mended: bool
    folder: Folder
    at_work: Callable[[], set[str]]

    @property
    def text(self) -> str: ...  # noqa: D102

    @property
    def whole(self) -> bool: ...  # noqa: D102


def state_of(workspace: Working, say: Speaker) -> Values:
    """Return the state of a workspace, in the words of ``say``."""
    drawn, text = workspace.drawn, workspace.text
    layout = drawn.layout if drawn else None
    state: Values = {
        "key": workspace.key,
        "heard": workspace.heard,
        "name": workspace.name,
        "unsaved": text != workspace.saved,
        "undo": bool(workspace.history.past),
        "redo": bool(workspace.history.future),
        "waiting": text != workspace.answered,
        "form": form_of(text, layout, workspace.problems, say),
        "number": workspace.number,
        "whole": workspace.whole,
        "current": not workspace.problems,
        "mended": workspace.mended,
        "drawn": drawn is not None and drawn.text == text,
        "files": workspace.folder.names(),
        "begin": list(beginnings()),
        "changes": {
            group: [say(change_told(change)) for change in changes]
            for group, changes in remedies_of(workspace.result, text).items()
        },
        "downloads": [[name, say(one.title), say(one.says)] for name, one in FILES.items()],
        "unfinished": unfinished_in(workspace.folder, workspace.at_work() | {workspace.key}),
    }
    state["outline"] = outline_told(text, drawn, workspace.problems, say)
    if layout:
        state["survey"] = [say(one) for one in survey_told(layout)]
        state["sizes"] = sizes_of(layout)
    if workspace.result:
        state |= {"summary": workspace.result.summary, "shopping": workspace.result.shopping}
    return state


def choice_told(before: str, text: str, path: Place, away: Sequence[Place], say: Speaker) -> str:
    """Return what is told when another form or metal was chosen; nothing where all stayed as it was.

    Args:
        before: The scene as it was.
        text: The scene as it is now.
        path: The field that was chosen in.
        away: Where values stood that were put away.
        say: In whose words.
    """
    forms = tuple(value_at(tomllib.loads(one), ("roof", "form")) for one in (before, text))
    told = [_away_told(text, path, away, say)] if away else []
    if forms == ("shed", "outline"):
        told.append(
            say(
                "An outline has no single slope: the shed's became two, a ridge between them. Undo takes it back."
            )
        )
    return " ".join(told)


def _away_told(text: str, path: Place, away: Sequence[Place], say: Speaker) -> str:
    """Return what is told when values were put away for another form or metal.

    Args:
        text: The scene as it is now.
        path: The field that was chosen in.
        away: Where the values stood.
        say: In whose words.
    """
    tables = tomllib.loads(text)
    roof = value_at(tables, ("roof",))
    forms = (
        [{**tables, "roof": {**roof, "form": form}} for form in FORMS] if isinstance(roof, Mapping) else []
    )
    every = (section for one in (*forms, tables) for section in sections(one, {}))
    names = {field.path: field.label for section in every for field in section.fields}
    put = Listed(tuple(dict.fromkeys(say(names.get(place, _plain(place))) for place in away)), "comma")
    metal = METALS.get(str(value_at(tables, ("metal", "kind"))))
    if path == ("metal", "kind") and metal and value_at(tables, ("metal", "thickness")) is None:
        label = metal.label(metal.thickness)
        thick: Message | Fine = message("{label}", label=label) if label else Fine(metal.thickness)
        return say(
            "The metal is {metal} now, in its usual thickness, {thickness}. "
            "Set aside, to come back with the metal before: {names}.",
            metal=METAL_WORDS[metal.kind],
            thickness=thick,
            names=put,
        )
    return say("Set aside, to come back with the choice before: {names}.", names=put)


PLACES: Mapping[Place, Message] = {
    ("roof", "taped"): message("what was taped"),
    ("roof", "outline"): message("the outline"),
    ("roof", "sides"): message("what sides have of their own"),
    ("roof", "porch"): message("porches"),
    ("roof", "holes"): message("courtyards"),
    ("roof", "wing"): message("the wing"),
    ("run",): message("what single runs have of their own"),
}
"""What is no single field, in a person's words."""


def _plain(place: Place) -> Message:
    return PLACES.get(place) or message("{name}", name=key_said(place))
