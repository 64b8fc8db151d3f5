"""How sure lengths are, where they are read: over the findings, on the sheet, in the lists and on the page."""

import csv
import io

from zoo import layout

from trimwright.model.pipeline import build
from trimwright.model.scene.schema import SurveySpec
from trimwright.viewer.data.pieces_csv import piece_list
from trimwright.viewer.data.report import pieces_of
from trimwright.viewer.drawings.ink.drawing import Words
from trimwright.viewer.drawings.packet.lists import piece_list as piece_blocks
from trimwright.viewer.page.pieces import cards_of
from trimwright.viewer.report.sureness import fit_told, sureness_told
from trimwright.viewer.words.speaker import speaker_of

FIT = ["E1-4", "E2-4", "R1-2", "R2-2", "R3-2", "R4-2", "C1-4"]


def test_nothing_is_told_where_nobody_says_how_well_the_roof_was_measured() -> None:
    found = layout("boat-shed")
    assert not list(sureness_told(found)) and fit_told(found, "R1-2") is None


def test_pieces_cut_to_fit_are_told_over_the_findings() -> None:
    told = [str(one) for one in sureness_told(layout("cooperage"))]
    assert told[0].startswith('Measured to 1/8" and 0.5 degrees either way')
    assert told[1].endswith(f": {', '.join(FIT)} (7 pieces).")


def test_every_place_says_the_same_of_a_piece() -> None:
    found = layout("cooperage")
    assert found.sureness is not None
    rows = {row["mark"]: row for row in csv.DictReader(io.StringIO(piece_list(found)))}
    cards = {card["mark"]: card for card in cards_of(found, (), speaker_of(found.scene))}
    report = {piece["name"]: piece["sure"] for piece in pieces_of(found)}
    for part in found.parts:
        sure, mark = found.sureness.pieces[part.mark], part.mark
        assert sure.fit == (mark in FIT) == (rows[mark]["to fit"] == "yes") == report[mark]["fit"]
        assert (cards[mark]["fit"] is not None) == sure.fit
        assert sure.least - 1e-9 <= part.length <= sure.most + 1e-9
        assert (rows[mark]["least in"], rows[mark]["most in"]) == (f"{sure.least:.3f}", f"{sure.most:.3f}")


def test_the_packets_list_says_to_fit_and_how_long_it_may_come_out() -> None:
    found = layout("cooperage")
    blocks = piece_blocks(found, (), 7.5, speaker_of(found.scene))
    listed = " ".join(item.text for block in blocks for item in block.items if isinstance(item, Words))
    assert listed.count(", to fit") == len(FIT)
    assert listed.count("Measure on the roof before its last end is cut") == len(FIT)


def test_a_roof_that_cannot_be_laid_out_within_its_errors_is_told() -> None:
    scene = layout("harbor-office").scene
    rough = build(
        scene.model_copy(update={"survey": SurveySpec.model_validate({"tape": "12 in", "pitch": "10 deg"})})
    )
    told = [str(one) for one in sureness_told(rough)]
    assert rough.sureness is None and len(told) == 1 and "cannot be told" in told[0]
