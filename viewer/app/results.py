"""The answer to a text: its layout and findings, what the viewer shows of it, and what there is to say and to buy."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import check
from trimwright.model.errors import Problem, SceneError, TrimwrightError
from trimwright.model.layout import Layout
from trimwright.model.mend.trial import Tried, with_changes
from trimwright.model.message import Length, message
from trimwright.model.message import counted as counted_of
from trimwright.model.pipeline import build
from trimwright.model.scene.draft import Changes, draft_of
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.schema import Scene
from trimwright.model.size_guard import Amount, TooMuchError
from trimwright.model.takeoff.record import Takeoff

from ..buy.lists import BY_SPREADSHEET, lengths_list, lists_of, noted, proofs, texts
from ..buy.timed_takeoff import timed_takeoff
from ..display.stage import Stage, stage_of
from ..page.language_switch import first_of, in_language
from ..page.payload import seen_of, told_of
from ..report.short import ShortPiece, shortest_first
from ..report.words import totals
from ..words.speaker import Speaker, speaker_of
from .mending import mended
from .taped_fields import walk_of

Values = dict[str, Any]
Given = TypeVar("Given")
Made = TypeVar("Made")

PATIENCE = 1.0
"""Seconds that the search for cutting plans may take while somebody waits for the view."""

LIVE = Amount(500, 6_000, 800)
"""A live view of more than these would keep everybody waiting; the command line takes larger roofs."""

BY_COMMAND = message("this is what is drawn live; the command line takes larger roofs")


@dataclass(frozen=True, slots=True, eq=False)
class DrawnRoof:
    """What is seen of a text: it is there first.

    Attributes:
        text: The text.
        stage: Its stage, without findings.
        view: What the viewer shows, each part as JSON.
    """

    text: str
    stage: Stage
    view: dict[str, bytes]

    @property
    def layout(self) -> Layout:
        """Its layout."""
        return self.stage.layout


@dataclass(frozen=True, slots=True, eq=False)
class Result:
    """A text, worked out.

    Attributes:
        drawn: What is seen of it.
        findings: What is wrong with it.
        takeoff: What to buy for it.
        view: What the viewer tells of it, each part as JSON.
        summary: The few lines that are always in sight: short pieces, findings, what to buy.
        shopping: The lists of what to buy, each as headings and rows of text.
    """

    drawn: DrawnRoof
    findings: tuple[Finding, ...]
    takeoff: Takeoff
    view: dict[str, bytes]
    summary: Values
    shopping: Values

    @property
    def layout(self) -> Layout:
        """Its layout."""
        return self.drawn.layout


def drawn_roof_of(text: str) -> DrawnRoof:
    """Return what is seen of the text of a scene.

    Raises:
        TrimwrightError: It cannot be read or built, or is too large for a live view; without the file's name.
    """
    scene = scene_from(text, "")
    layout = built(scene)
    stage = stage_of(in_language(layout, first_of(layout)))
    walk_of(stage.layout)  # for the form, which is told where nobody may wait
    return DrawnRoof(text, stage, _as_json(seen_of(stage)))


def result_of(drawn: DrawnRoof) -> Result:
    """Return the whole answer to a text of which ``drawn`` is seen.

    Raises:
        TrimwrightError: There is no such rule, a price is missing, or there is too little stock for a piece.
    """
    findings = check(drawn.layout)
    takeoff = timed_takeoff(drawn.layout, seconds=PATIENCE)
    view = _as_json(told_of(drawn.stage, findings, takeoff))
    say = speaker_of(drawn.layout.scene)
    summary = _summary(drawn.layout, findings, takeoff, say)
    return Result(drawn, findings, takeoff, view, summary, _shopping(drawn.layout, takeoff, say))


def remedied(result: Result, is_present: Callable[[str], bool]) -> Result:
    """Return a result whose findings have the changes that remove them, as far as they could be tried.

    Args:
        result: A text, worked out.
        is_present: Whether a text is still the one that is worked on: no more trials are made once it is not.
    """
    text = result.drawn.text
    before = Tried(draft_of(text), result.layout, result.findings)
    return replace(result, findings=with_changes(before, lambda: is_present(text)))


def remedies_of(result: Result | None, text: str) -> Mapping[str, Changes]:
    """Return the changes that remove findings, by the number of their group: none of another text than ``text``."""
    if result is None or result.drawn.text != text:
        return {}
    return {str(one.group): one.change for one in result.findings if one.change is not None}


def _as_json(parts: Values) -> dict[str, bytes]:
    return {name: json.dumps(part, separators=(",", ":")).encode() for name, part in parts.items()}


def built(scene: Scene) -> Layout:
    """Return the layout of a scene.

    Raises:
        TrimwrightError: It cannot be built, or takes more than a live view is made for.
    """
    try:
        return build(scene, LIVE)
    except TooMuchError as error:
        raise SceneError(*error.problems, BY_COMMAND) from None


def _summary(layout: Layout, findings: Sequence[Finding], takeoff: Takeoff, say: Speaker) -> Values:
    short = shortest_first(layout)
    bought = sum(count for trim in takeoff.trim for _, count in trim.counts)
    return {
        "short": _short(short, say),
        "mark": short[0].mark if short else None,
        "findings": say(totals(findings)),
        "errors": any(finding.severity == "error" for finding in findings),
        "buy": say(
            "{lengths}, {panels}",
            lengths=counted_of("{count} length of trim", "{count} lengths of trim", count=bought),
            panels=counted_of("{count} panel", "{count} panels", count=_panels(takeoff)),
        ),
    }


def _short(short: Sequence[ShortPiece], say: Speaker) -> str:
    """Return the shortest piece, where it lands, and how many more there are."""
    if not short:
        return say("none")
    first = short[0]
    place = first.spot.at
    if len(short) == 1:
        return say("{mark}, {length} {place}", mark=first.mark, length=Length(first.length), place=place)
    return say(
        "{mark}, {length} {place}, and {more} more",
        mark=first.mark,
        length=Length(first.length),
        place=place,
        more=len(short) - 1,
    )


def _panels(takeoff: Takeoff) -> int:
    return sum(panel.count for panel in takeoff.panels)


def _shopping(layout: Layout, takeoff: Takeoff, say: Speaker) -> Values:
    lists = [each for each in lists_of(layout, takeoff) if each.key not in BY_SPREADSHEET]
    lists.append(lengths_list(layout, takeoff))
    return {
        "lists": [
            {
                "name": say(each.name),
                "fields": [say(field.name) for field in each.fields],
                "right": [field.kind != "text" for field in each.fields],
                "rows": list(texts(each, say)),
                "note": noted(each, say),
            }
            for each in lists
        ],
        "proofs": [say(proof) for proof in proofs(takeoff)],
    }


def tried(work: Callable[[Given], Made], on: Given) -> tuple[Made | None, tuple[Problem, ...]]:
    """Return what ``work`` makes, or what kept it from that."""
    try:
        return work(on), ()
    except TrimwrightError as error:
        return None, error.problems
    except Exception as error:
        fault = message("a fault in trimwright itself ({kind}); please report it", kind=type(error).__name__)
        return None, (Problem(fault),)


def drawn_anyway(text: str, before: DrawnRoof | None) -> tuple[str, DrawnRoof | None, tuple[Problem, ...]]:
    """Return a text, what is seen of it, and what keeps it from being seen.

    Where some values cannot be read, the rest is seen with those from ``before`` in their place; what the browser has
    already is not drawn anew.
    """
    drawn, problems = tried(drawn_roof_of, text)
    if drawn is None and before is not None:
        other = mended(text, problems, before.text)
        if other is not None and other != before.text:
            drawn, _ = tried(drawn_roof_of, other)
    return text, drawn, problems
