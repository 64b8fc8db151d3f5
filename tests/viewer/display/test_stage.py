"""The stage: every view that a roof should have, with the right words at the right places."""

import numpy as np
import pytest
from zoo import NAMES, layout

from trimwright.model.checks.run import check
from trimwright.viewer.display.stage import Stage, ViewError, stage_of
from trimwright.viewer.display.view import Entry

ALWAYS = ("street", "finish", "bare", "bare back", "findings", "findings back")


def staged(name: str) -> Stage:
    return stage_of(layout(name), check(layout(name)))


@pytest.mark.parametrize("name", NAMES)
def test_every_roof_has_its_views(name: str) -> None:
    roof, stage = layout(name), staged(name)
    views = stage.viewpoints
    assert set(ALWAYS) <= set(views)
    short = {f"short piece {part.mark}" for part in roof.parts if part.piece.short}
    assert {view for view in views if view.startswith("short")} == short
    screwed = {screw.mark.rpartition("-")[0] for screw in roof.screws}
    assert {view.split()[1] for view in views if view.startswith("screws ")} == screwed
    kinds = {end.kind.name.replace(" ", "-") for part in roof.parts for end in part.ends.corners} - {
        "plain-end"
    }
    for kind in kinds:
        assert stage.view(f"corner {kind}").name.startswith(f"corner {kind} ")
        assert stage.view(f"corner {kind} apart").name.endswith(" apart")
    if any(end.lap for part in roof.parts for end in part.ends):
        assert stage.view("corner lap").lines
    assert set(stage.album) <= set(views)


def test_findings_are_in_the_album_only_when_there_are_some() -> None:
    assert "findings" not in stage_of(layout("boat-shed")).album
    assert "findings" in staged("slip-shed").album


def test_corners_made_alike_are_drawn_once() -> None:
    stage = staged("boat-shed")
    corners = [view for view in stage.album if view.startswith("corner eave-rake")]
    assert len(corners) == 4, "left and right, each as it is set and apart"
    assert len([view for view in stage.viewpoints if view.startswith("corner eave-rake")]) == 8


def test_an_unknown_view_names_the_nearest_and_lists_all() -> None:
    with pytest.raises(ViewError) as caught:
        staged("boat-shed").view("corner eave-rack R1-1")
    message = str(caught.value)
    assert "did you mean 'corner eave-rake R1-1'?" in message
    assert "street" in message and "\n" not in message


@pytest.mark.parametrize(
    "file",
    [
        "corner-eave-rake-R1-1-apart.png",
        "corner-eave-rake-R1-1-apart",
        "out/boat-shed/pictures/corner-eave-rake-R1-1-apart.png",
        "out/boat-shed-corner-eave-rake-R1-1-apart.png",
    ],
)
def test_a_view_is_found_by_the_file_of_its_picture(file: str) -> None:
    assert staged("boat-shed").view(file).name == "corner eave-rake R1-1 apart"


def test_the_longest_name_that_a_file_ends_in_is_meant() -> None:
    assert staged("boat-shed").view("boat-shed-bare-back.png").name == "bare back"


def test_a_few_are_the_views_of_the_whole_roof() -> None:
    stage = stage_of(layout("boat-shed"))
    assert stage.few == ("street", "finish", "bare", "bare back", "ladder")
    assert "findings" in staged("slip-shed").few


@pytest.mark.parametrize("name", ["harbor-office", "net-loft"])
def test_every_piece_is_labelled_with_its_mark_and_a_short_one_with_its_length(name: str) -> None:
    roof, stage = layout(name), staged(name)
    told = {label.mark: str(label.text) for label in stage.view("bare").labels}
    assert set(told) == {part.mark for part in roof.parts}
    for part in roof.parts:
        length = roof.scene.tape(part.length)
        assert told[part.mark] == (f"{part.mark}  {length}" if part.piece.short else part.mark)


@pytest.mark.parametrize("name", NAMES)
def test_labels_lie_on_the_painted_side_of_their_piece(name: str) -> None:
    parts = {part.mark: part for part in layout(name).parts}
    for label in staged(name).labels:
        box = parts[label.mark].solid.vertices
        assert (label.points >= box.min(axis=0) - 0.1).all()
        assert (label.points <= box.max(axis=0) + 0.1).all()
        assert np.allclose(np.linalg.norm(label.normals, axis=1), 1)


def test_pins_carry_the_findings_numbers_and_points() -> None:
    findings = check(layout("slip-shed"))
    pins = stage_of(layout("slip-shed"), findings).pins
    assert [pin.number for pin in pins] == list(range(1, len(findings) + 1))
    for pin, finding in zip(pins, findings, strict=True):
        assert pin.severity == finding.severity
        assert (pin.point == finding.point).all()
        assert pin.text.startswith(f"{finding.rule}: {finding.where}")


def test_a_corner_says_which_piece_lies_over_which() -> None:
    roof = layout("boat-shed")
    for view in staged("boat-shed").viewpoints.values():
        if not view.name.startswith("corner eave-rake") or view.name.endswith("apart"):
            continue
        told = [str(label.text) for label in view.labels]
        rake = next(part for part in roof.parts if part.mark in view.focus and part.run.trim == "rake")
        eave = next(part for part in roof.parts if part.mark in view.focus and part.run.trim == "eave")
        assert f"{rake.mark}\nover {eave.mark}" in told
        assert f"{eave.mark}\nunder {rake.mark}" in told
        assert 'tab 3/8"\nfolded round the corner' in told


def test_what_lies_over_is_lifted_and_what_lies_under_stays() -> None:
    view = staged("boat-shed").view("corner eave-rake R1-1 apart")
    assert set(view.apart) == {"R1-1"}
    assert view.apart["R1-1"][2] > 1


def test_the_numbers_of_a_corner_apart_are_those_of_its_steps() -> None:
    roof = layout("boat-shed")
    view = staged("boat-shed").view("corner eave-rake R1-1 apart")
    rake = next(part for part in roof.parts if part.mark == "R1-1")
    steps = rake.ends.low.steps
    told = {Entry(number, step.says) for number, step in enumerate(steps, 1) if step.verb in ("cut", "fold")}
    assert told <= {entry for part in view.legend for entry in part.entries}
    numbers = {label.text for label in view.labels if label.kind == "step" and label.mark == "R1-1"}
    assert numbers <= {str(entry.number) for entry in told}
    assert len(numbers) >= 6


def test_tape_marks_along_a_rake_are_the_screws_own() -> None:
    roof = layout("boat-shed")
    ticks = [line for line in staged("boat-shed").view("screws R1").lines if line.kind == "tick"]
    marks = [roof.scene.tape(screw.at) for screw in roof.screws if screw.mark.startswith("R1-")]
    ends = [f"{part.mark}: 0" for part in roof.parts if part.run.code == "R1"]
    assert sorted(str(line.text) for line in ticks) == sorted([*marks, *ends])
    heads = np.array([screw.point for screw in roof.screws if screw.mark.startswith("R1-")])
    starts = np.array([line.points[0] for line in ticks if ":" not in str(line.text)])
    assert np.allclose(sorted(map(tuple, heads)), sorted(map(tuple, starts)))


def test_the_marks_of_both_wings_of_a_cap_are_told() -> None:
    roof = layout("harbor-office")
    ticks = [str(line.text) for line in staged("harbor-office").view("screws H1").lines]
    screws = [screw for screw in roof.screws if screw.mark.startswith("H1-")]
    middle = roof.part("H1-1").run.section.width / 2
    wings = [{screw.at for screw in screws if (screw.across < middle) == left} for left in (True, False)]
    assert wings[0] != wings[1], "a hip between unlike slopes"
    marks = [roof.scene.tape(screw.at) for screw in screws]
    ends = [f"{part.mark}: 0" for part in roof.parts if part.run.code == "H1"]
    assert sorted(ticks) == sorted([*marks, *ends])


def test_a_lap_is_measured_as_long_as_it_is() -> None:
    stage = staged("boat-shed")
    for name in ("corner lap R1-2", "short piece R1-2"):
        (line,) = (line for line in stage.view(name).lines if line.kind == "measure")
        assert str(line.text) == 'lap 4"'
        assert np.linalg.norm(line.points[1] - line.points[0]) == pytest.approx(4.0, abs=0.02)


def test_every_view_for_the_roof_carries_the_cautions() -> None:
    for view in staged("harbor-office").viewpoints.values():
        carried = view.name.split()[0] in ("bare", "short", "corner", "panels", "cleat", "screws")
        assert view.caution == carried, view.name
