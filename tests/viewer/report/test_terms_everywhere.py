"""The terms of a check stand wherever its findings are read: command, page, packet's cover and list, window, offer."""

from collections.abc import Iterable

import pytest
from typer.testing import CliRunner
from zoo import SCENES, layout, told

from trimwright.model.checks.run import check
from trimwright.model.checks.terms import terms_of
from trimwright.model.errors import SceneError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.cli.commands import app_of
from trimwright.viewer.data.report import report_of
from trimwright.viewer.display.setting_steps import steps_of
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.drawings.ink.drawing import Drawing, Words
from trimwright.viewer.drawings.packet.cover import cover
from trimwright.viewer.drawings.packet.findings_list import findings_list
from trimwright.viewer.drawings.paper.flow import Block
from trimwright.viewer.drawings.paper.page import Room
from trimwright.viewer.offer.choice import choices_of
from trimwright.viewer.offer.pages import offer_pages
from trimwright.viewer.page.payload import payload_of
from trimwright.viewer.report.terms import UNCHECKED, told_first
from trimwright.viewer.window.reading import reading_of
from trimwright.viewer.window.state import State
from trimwright.viewer.words.speaker import speaker_of

HERE, FOUND = layout("slip-shed"), told("slip-shed")
SAY = speaker_of(HERE.scene)
TERMS = [SAY(term) for term in told_first(HERE, FOUND, SAY.tape)]
PATH = next(path for path in SCENES if path.stem == "slip-shed")


def words(parts: Iterable[Block | Drawing]) -> str:
    """Return all that is written, its broken lines joined again."""
    return " ".join(item.text for part in parts for item in part.items if isinstance(item, Words))


def in_window() -> str:
    stage, steps = stage_of(HERE, FOUND), steps_of(HERE)
    reading = reading_of(HERE, FOUND, stage, steps, State("findings", len(steps), finding=1))
    assert reading is not None
    return " ".join(SAY(row.says) for row in reading.rows)


READ = {
    "command": lambda: " ".join(CliRunner().invoke(app_of(), ["check", str(PATH)]).stdout.split()),
    "page": lambda: " ".join(payload_of(HERE, FOUND)["terms"]),
    "cover": lambda: words(cover(HERE, FOUND, None, [], Room(0.0, 0.0, 6.5, 9.0), SAY)),
    "list": lambda: words(findings_list(HERE, FOUND, 6.5, SAY)),
    "window": in_window,
    "offer": lambda: words(offer_pages(tuple(choices_of(HERE.scene, None)), [], None, "")),
}


@pytest.mark.parametrize("place", READ)
def test_every_term_is_read_there(place: str) -> None:
    said = " ".join(READ[place]().split())
    assert len(TERMS) >= 5
    for term in TERMS:
        assert term in said, term


def test_the_report_has_them_as_values() -> None:
    rules = report_of(HERE, FOUND)["rules"]
    assert rules["set"] == "common practice" and rules["overridden"] == ["short-end-piece"]
    assert [one["reason"] for one in rules["accepted"]] == ["a ridge vent comes later"]
    assert rules["not_checked"] == [SAY(UNCHECKED)] and rules["bare"] == ["ridge"]


GABLE = 'title = "A"\n[roof]\nform = "gable"\nlength = "18\'"\nwidth = "14\'"\npitch = "6/12"\n'


@pytest.mark.parametrize(
    ("rules", "told"),
    [
        ("[rules.off]\nlap-head = ''", "rules.off.lap-head: empty; give some text"),
        ("[[rules.accept]]\nrule = 'lap-head'", "rules.accept no. 1.reason: missing"),
        (
            "[[rules.accept]]\nrule = 'lap-too-short'\nreason = 'so'",
            "where is missing: lap-too-short is an error",
        ),
    ],
)
def test_what_hides_a_finding_without_a_reason_or_a_place_is_refused(rules: str, told: str) -> None:
    with pytest.raises(SceneError, match=told.replace(".", r"\.")):
        check(build(scene_from(GABLE + rules)))


def test_a_limit_without_a_reason_and_an_acceptance_of_nothing_are_told_as_such() -> None:
    text = GABLE + "[rules.limits]\nlap-too-short = 2\n[[rules.accept]]\nrule = 'lap-head'\nreason = 'once'\n"
    there = build(scene_from(text))
    said = [str(term) for term in told_first(there, check(there), there.scene.tape)]
    assert any(
        term.startswith("Limit lap-too-short: set by the scene: 2") and "no reason given" in term
        for term in said
    )
    assert "Accepted, but there is no such finding any longer: lap-head, everywhere, reason: once." in said
    assert terms_of(there, check(there)).acceptances[0].findings == ()
