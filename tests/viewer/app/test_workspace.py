"""A workspace without a browser: what is asked for, and what is told."""

import asyncio
import re
import threading
from pathlib import Path
from typing import Any

import pytest
from loops import finish
from workspaces import KEY, PITCH, Told, acts, change

from trimwright.model.errors import Problem, SceneError
from trimwright.model.message import message
from trimwright.model.scene.read import scene_from
from trimwright.viewer.app import results as results_module
from trimwright.viewer.app import workspace as workspace_module
from trimwright.viewer.app.beginnings import PLAIN, beginnings
from trimwright.viewer.app.folder import Folder
from trimwright.viewer.app.form_sections import trims_of
from trimwright.viewer.app.results import DrawnRoof, drawn_roof_of, result_of
from trimwright.viewer.app.starts import with_start
from trimwright.viewer.app.workspace import Workspace


def problems(state: dict[str, Any]) -> dict[str, str]:
    return {
        ".".join(one["path"]): one["problem"]
        for section in state["form"]["sections"]
        for one in section["fields"]
        if one["problem"]
    }


def test_a_change_redraws_view_short_piece_findings_and_shopping_list(
    workspace: Workspace, told: Told
) -> None:
    acts(workspace, {"do": "ready"})
    before = told.state
    acts(workspace, change(["roof", "length"], "41'"))
    after = told.state
    assert after["number"] == before["number"] + 1 and after["current"]
    assert after["summary"]["short"] != before["summary"]["short"]
    assert after["shopping"] != before["shopping"]
    assert {"shapes", "bodies", "pieces"} <= set(workspace.fresh())


def test_only_parts_that_changed_are_sent(workspace: Workspace) -> None:
    acts(workspace, {"do": "ready"})
    workspace.fresh()
    acts(workspace, change(["colors", "walls"], "#123456"))
    assert set(workspace.fresh()) == {"finish"}


def test_what_is_seen_and_the_rest_are_each_sent_once(tmp_path: Path) -> None:
    sent: list[set[str]] = []
    workspace = Workspace(
        KEY,
        Folder(tmp_path),
        lambda state: state.get("waiting") is False and sent.append(set(workspace.fresh())),
    )
    acts(workspace, {"do": "ready"})
    sent.clear()
    acts(workspace, change(["colors", "walls"], "#123456"))
    assert sent[0] == {"finish"} and not any(sent[1:])


def test_a_field_that_cannot_be_read_says_so_and_the_last_view_stays(
    workspace: Workspace, told: Told
) -> None:
    acts(workspace, {"do": "ready"}, change(PITCH, "6/1x"))
    state = told.state
    assert problems(state) == {"roof.pitch": "6/1x is not a pitch; write 6/12, 26.57 deg or 50 %"}
    assert (state["number"], state["current"]) == (1, False)
    acts(workspace, {"do": "undo"})
    assert not problems(told.state) and told.state["current"]


def test_a_roof_is_drawn_before_it_is_judged(workspace: Workspace, told: Told) -> None:
    acts(workspace, {"do": "ready"}, change(["roof", "length"], "41'"))
    steps = [(state["number"], state["whole"], state["waiting"]) for state in told if "form" in state]
    assert list(dict.fromkeys(steps))[-3:] == [(1, True, True), (2, False, False), (2, True, False)]
    assert {"cards", "findings", "close"} <= set(workspace.fresh())


def test_what_is_wrong_with_the_lists_leaves_the_roof_drawn(workspace: Workspace, told: Told) -> None:
    acts(workspace, {"do": "ready"})
    first = workspace.result
    workspace.replace(workspace.text + '\n[rules.off]\nno-such-rule = "not here"\n')
    acts(workspace, {})
    state = told.state
    assert (state["current"], state["drawn"], state["whole"]) == (False, True, False)
    assert "no-such-rule" in state["form"]["loose"][0] and workspace.result is first


def test_what_can_be_taken_is_taken_and_the_rest_stays_as_it_was(workspace: Workspace, told: Told) -> None:
    acts(workspace, {"do": "ready"}, change(["title"], ""), change(["roof", "length"], "41'"))
    state = told.state
    assert set(problems(state)) == {"title"}
    assert (state["number"], state["current"], state["mended"]) == (2, False, True)
    assert workspace.drawn is not None
    scene = workspace.drawn.layout.scene
    assert (scene.title, scene.roof.length) == ("A gable at Skerry Sound", 41 * 12)
    assert workspace.whole and workspace.result is not None
    assert 'title = ""' in workspace.text
    acts(workspace, change(["title"], "Barn"))
    assert told.state["current"] and not told.state["mended"]


def test_what_is_wrong_in_no_single_value_keeps_the_roof_as_it_was(workspace: Workspace, told: Told) -> None:
    acts(workspace, {"do": "ready"}, change(["panels", "cover"], "4 in"), change(["roof", "length"], "900'"))
    state = told.state
    assert (state["number"], state["current"], state["mended"]) == (2, False, False)


def test_a_bare_number_is_read_back_and_asked_about_where_it_cannot_be_meant(
    workspace: Workspace, told: Told
) -> None:
    def reading(*path: str) -> Any:
        fields = [one for section in told.state["form"]["sections"] for one in section["fields"]]
        return next(one["reading"] for one in fields if one["path"] == list(path))

    acts(workspace, {"do": "ready"}, change(["roof", "length"], "40"), change(["roof", "wall_height"], "96"))
    assert reading("roof", "length") == {
        "says": "40 in, read as 3' 4\"",
        "meant": "40 ft",
        "ask": "Did you mean 40 ft?",
    }
    assert reading("roof", "wall_height") == {"says": "96 in, read as 8' 0\""}
    assert reading("roof", "width") is None
    acts(workspace, change(["unit"], "mm"), change(["roof", "length"], "12000"))
    assert reading("roof", "length") == {"says": "12000 mm, read as 12000 mm"}
    acts(workspace, change(["colors", "walls"], "Slate gray"))
    assert reading("colors", "walls") == {"says": "Slate gray, read as #708090", "color": "#708090"}
    assert reading("metal", "color") is None


def test_edits_are_taken_once_and_in_their_order(workspace: Workspace, told: Told) -> None:
    edits = [change(["title"], f"edit {number}") | {"edit": number} for number in range(1, 5)]
    acts(workspace, {"do": "ready"}, edits[0], edits[2], edits[0])
    assert (told.state["heard"], 'title = "edit 1"' in workspace.text) == (1, True)
    acts(workspace, edits[1], edits[2], edits[3])
    assert told.state["heard"] == 4
    assert [text.split('title = "')[1].split('"')[0] for text in workspace.history.past[1:]] == [
        "edit 1",
        "edit 2",
        "edit 3",
    ]


def test_undo_and_redo_walk_through_the_texts(workspace: Workspace) -> None:
    first = workspace.text
    acts(workspace, change(PITCH, "7/12"), change(PITCH, "8/12"), {"do": "undo"}, {"do": "undo"})
    assert workspace.text == first
    acts(workspace, {"do": "redo"}, {"do": "redo"}, {"do": "redo"})
    assert 'pitch = "8/12"' in workspace.text


def test_one_go_of_writing_is_one_undo(workspace: Workspace) -> None:
    first = workspace.text
    acts(workspace, change(PITCH, "7", touch="t1"), change(PITCH, "7/12", touch="t1"), {"do": "undo"})
    assert workspace.text == first


def test_what_is_no_field_cannot_be_changed(workspace: Workspace, told: Told) -> None:
    first = workspace.text
    for path in (["roof"], ["profile", "x"], "roof.pitch", None, [["roof", "pitch"]], ["rules", "off", "x"]):
        acts(workspace, {"do": "change", "path": path, "value": "x"})
    acts(workspace, {"do": "no such thing"}, {})
    assert workspace.text == first


def test_a_limit_that_is_emptied_is_that_of_the_rule_set_again(workspace: Workspace, told: Told) -> None:
    path = ["rules", "limits", "short-end-piece", "value"]
    before = workspace.text
    acts(workspace, change(path, "18 in"))
    assert told.state["current"] and "short-end-piece" in workspace.text
    acts(workspace, change(path, ""))
    assert told.state["current"] and "short-end-piece" not in workspace.text
    acts(workspace, {"do": "undo"}, {"do": "undo"})
    assert workspace.text == before


@pytest.mark.parametrize("name", list(PLAIN))
def test_plain_beginnings_are_drawn_without_an_error(name: str) -> None:
    assert not [
        one for one in result_of(drawn_roof_of(beginnings()[name])).findings if one.severity == "error"
    ]


def test_starting_rules_stand_side_by_side_and_one_is_taken(workspace: Workspace) -> None:
    async def go() -> dict[str, Any]:
        return await workspace.compared()

    compared = finish(go())
    assert compared["starts"] == ["low", "high", "centered", "even", "shared"]
    assert [row[0] for row in compared["rows"]][3:] == ["all pieces alike", "low, a short one shared"]
    acts(workspace, {"do": "start", "start": "even"})
    scene = scene_from(workspace.text)
    trims = [scene.trim[kind] for kind in trims_of("gable")]
    assert {trim.start for trim in trims if trim} == {"even"}


def test_a_rule_for_all_leaves_bare_edges_bare() -> None:
    scene = scene_from(with_start(PLAIN["plain-gable"] + "\n[trim]\nrake = false\n", "high"))
    assert scene.trim["rake"] is None
    assert scene.trim["eave"] is not None and scene.trim["eave"].start == "high"


def test_texts_that_are_out_of_date_are_passed_over(
    workspace: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    answered = []
    begun, asked = threading.Event(), threading.Event()

    def slow(text: str) -> DrawnRoof:
        answered.append(text)
        begun.set()
        assert asked.wait(60)
        raise SceneError(Problem(message("no"), ("roof", "pitch")))

    monkeypatch.setattr(results_module, "drawn_roof_of", slow)

    async def go() -> None:
        first = asyncio.create_task(workspace.act({"do": "ready"}))
        await asyncio.to_thread(begun.wait, 60)
        others = [asyncio.create_task(workspace.act(change(PITCH, f"{pitch}/12"))) for pitch in range(3, 12)]
        while 'pitch = "11/12"' not in workspace.text:
            await asyncio.sleep(0)
        asked.set()
        await asyncio.gather(first, *others)

    finish(go())
    assert len(answered) == 2 and 'pitch = "11/12"' in answered[-1]


def test_a_fault_of_its_own_is_told_and_the_workspace_goes_on(
    workspace: Workspace, told: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_text: str) -> DrawnRoof:
        raise ZeroDivisionError

    with monkeypatch.context() as patched:
        patched.setattr(results_module, "drawn_roof_of", broken)
        acts(workspace, {"do": "ready"})
    assert "a fault in trimwright itself (ZeroDivisionError)" in told.state["form"]["loose"][0]
    acts(workspace, change(PITCH, "7/12"))
    assert told.state["current"]


HOSTILE = {
    "long roof": change(["roof", "length"], "1000'"),
    "short stock": change(["metal", "stock"], "6 in"),
    "close screws": change(["screws", "spacing"], "1 in"),
    "close screws by a limit": change(["rules", "limits", "screw-spacing", "value"], "1 in"),
    "narrow panels": change(["panels", "cover"], "4 in"),
}


@pytest.mark.parametrize("name", list(HOSTILE))
def test_a_roof_too_large_is_refused_with_a_way_out_and_not_built(
    workspace: Workspace, told: Told, name: str
) -> None:
    acts(workspace, change(["roof", "length"], "400'"))
    before = workspace.drawn
    assert before is not None and told.state["current"]
    acts(workspace, HOSTILE[name])
    state = told.state
    refused = [*state["form"]["loose"], *problems(state).values()]
    much = [line for line in refused if "makes some" in line]
    assert much and all("; give " in line for line in much)
    assert not state["current"] and workspace.drawn is before


def test_what_is_more_than_is_drawn_live_says_what_to_do() -> None:
    text = PLAIN["plain-gable"].replace("24'", "900'").replace("10' 6\\\"", "2 ft")
    with pytest.raises(SceneError) as caught:
        drawn_roof_of(text)
    assert re.search(
        r"metal\.stock: makes some [\d,]+ pieces, more than 500; give longer stock", str(caught.value)
    )
    assert "the command line takes larger roofs" in str(caught.value)


SHORT_LAP = '[trim.eave]\nlap = "2 in"  # as the last roof had it\n'


def test_a_finding_offers_the_change_that_was_tried_and_undo_takes_it_back(
    workspace: Workspace, told: Told
) -> None:
    acts(workspace, {"do": "ready"})
    workspace.replace(workspace.text + SHORT_LAP)
    acts(workspace, {})
    before, state = workspace.text, told.state
    group = next(str(one.group) for one in workspace.result.findings if one.rule == "lap-too-short")
    assert state["changes"][group] == ['trim.eave.lap = "3 in"']
    acts(workspace, {"do": "remedy", "group": int(group), "number": state["number"]})
    assert 'lap = "3 in"  # as the last roof had it' in workspace.text
    assert "lap-too-short" not in {one.rule for one in workspace.result.findings}
    acts(workspace, {"do": "undo"})
    assert workspace.text == before


def test_a_change_is_not_made_in_a_scene_that_has_changed_since(workspace: Workspace, told: Told) -> None:
    acts(workspace, {"do": "ready"})
    workspace.replace(workspace.text + SHORT_LAP)
    acts(workspace, {})
    number, group = told.state["number"], next(iter(told.state["changes"]))
    acts(workspace, change(["roof", "length"], "41'"))
    before = workspace.text
    acts(workspace, {"do": "remedy", "group": group, "number": number})
    assert workspace.text == before
    assert told.of("refused") == ["the scene has changed since; look at its findings again"]


def test_nobody_waits_for_trials_who_has_written_on(workspace: Workspace, monkeypatch) -> None:
    """The text changes while the first trial is made: no second one is."""
    trials = []

    def trial(draft):
        trials.append(draft)
        workspace.replace(workspace.text.replace("2 in", "3 in"))
        raise SceneError(message("planted"))

    workspace.replace(workspace.text + SHORT_LAP + "[trim.rake]\nsealed = false\ntab = 0\n")
    monkeypatch.setattr("trimwright.model.mend.trial.checked", trial)
    result = workspace_module.result_of(drawn_roof_of(workspace.text))
    workspace_module.remedied(result, lambda text: text == workspace.text)
    assert len(trials) == 1
