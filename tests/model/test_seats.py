"""Seats: a piece tilts as a rigid body, and lies at least one sheet over what is under it, all along the lap."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from zoo import NAMES, OTHERS, layout

from trimwright.model.joints.lift import FLAT, Lift
from trimwright.model.pieces import Piece, cut_pieces
from trimwright.model.runs import Run
from trimwright.model.seats import seat_pieces, tilt

PLAIN = layout("boat-shed")
RAKE = next(run for run in PLAIN.runs if run.trim == "rake")
SLACK = 2e-5
"""A tilted piece leans away by the square of its tilt: 1/1000 in 10 in; far below what a sheet is thick."""

small = st.floats(-0.5, 0.5)


def pieces_of(total: float, start: str) -> tuple[Piece, ...]:
    run = replace(RAKE, spec=RAKE.spec.model_copy(update={"start": start}))
    return cut_pieces(run, (0.0, total), (0.0, 0.0), PLAIN.scene, 24.0)


def shift(run: Run, placement: np.ndarray, u: float) -> np.ndarray:
    """Return how far the piece's axis is off the run's at ``u``: ``(out, up)``, inches."""
    return (np.linalg.inv(run.frame) @ placement @ [u, 0.0, 0.0, 1.0])[1:3]


def sheets(run: Run, placement: np.ndarray, u: float) -> float:
    """Return how many sheets would fit under the piece's axis at ``u``."""
    nesting = run.section.nesting
    return float(shift(run, placement, u) @ nesting / (nesting @ nesting))


@given(st.floats(-10, 10), st.floats(6, 300), st.tuples(small, small), st.tuples(small, small))
def test_a_tilt_is_rigid_and_meets_both_ends(
    start: float, length: float, first: tuple[float, float], last: tuple[float, float]
) -> None:
    motion = tilt(start, start + length, np.array(first), np.array(last))
    turn = motion[:3, :3]
    assert turn.T @ turn == pytest.approx(np.eye(3), abs=1e-12)
    assert np.linalg.det(turn) == pytest.approx(1)
    assert motion @ [start, 0, 0, 1] == pytest.approx([start, *first, 1], abs=1e-9)
    toward = (motion @ [start + length, 0, 0, 1] - motion @ [start, 0, 0, 1])[:3]
    wanted = np.array([length, last[0] - first[0], last[1] - first[1]])
    assert toward / np.linalg.norm(toward) == pytest.approx(wanted / np.linalg.norm(wanted), abs=1e-12)


def test_no_shift_is_no_tilt() -> None:
    assert tilt(0.0, 120.0, np.zeros(2), np.zeros(2)) == pytest.approx(np.eye(4))


def test_by_hand_a_second_piece_lies_one_sheet_up_at_its_low_end() -> None:
    """150 in: the first piece lies flat from 0 to 126, the second from 122 to 150, one sheet up from 122 to 126.

    It comes down to the deck at 150: the line through one sheet at 126 and none at 150 is at 28/24 sheets at 122.
    """
    first, second = seat_pieces(RAKE, pieces_of(150, "low"), FLAT, FLAT)
    assert first == pytest.approx(RAKE.frame)
    assert sheets(RAKE, second, 126) == pytest.approx(1, abs=1e-3)
    assert sheets(RAKE, second, 150) == pytest.approx(0, abs=1e-3)
    assert sheets(RAKE, second, 122) == pytest.approx(28 / 24, abs=1e-3)


def test_what_a_corner_lifts_is_lifted() -> None:
    """One sheet of eave trim under the first 4 in of a single piece: it leans on it and reaches the deck at its end."""
    (only,) = seat_pieces(RAKE, pieces_of(100, "low"), Lift(1.0, 4.0, np.zeros(2)), FLAT)
    assert sheets(RAKE, only, 4) == pytest.approx(1, abs=1e-3)
    assert sheets(RAKE, only, 100) == pytest.approx(0, abs=1e-3)


def test_a_lift_aside_moves_the_end_that_it_is_given_for() -> None:
    (only,) = seat_pieces(RAKE, pieces_of(100, "low"), FLAT, Lift(0.0, 0.0, np.array([0.1, 0.0])))
    assert shift(RAKE, only, 0) == pytest.approx([0, 0], abs=1e-9)
    assert shift(RAKE, only, 100) == pytest.approx([0.1, 0], abs=1e-4)


@given(st.floats(130, 900), st.sampled_from(["low", "high", "centered", "even", "shared"]), st.data())
def test_over_is_over_by_a_sheet_along_every_lap(total: float, start: str, data: st.DataObject) -> None:
    pieces = pieces_of(total, start)
    assume(min(piece.length for piece in pieces) > 10)
    ways = data.draw(st.lists(st.sampled_from(["over", "under"]), min_size=len(pieces), max_size=len(pieces)))
    pieces = tuple(
        replace(piece, lies=way if piece.lies else None) for piece, way in zip(pieces, ways, strict=True)
    )
    lift = data.draw(st.sampled_from([FLAT, Lift(1.0, 4.0, np.zeros(2))]))
    seats = seat_pieces(RAKE, pieces, lift, FLAT)
    for k in range(1, len(pieces)):
        a, b = (k, k - 1) if pieces[k].lies == "over" else (k - 1, k)
        for u in np.linspace(pieces[k].start, pieces[k - 1].end, 5):
            assert sheets(RAKE, seats[a], u) - sheets(RAKE, seats[b], u) >= 1 - 1e-3


GOOD = [name for name in (*NAMES, *OTHERS) if name != "slip-shed"]
"""The slip shed has a piece planted under its neighbor, against the water, which nobody would set."""


@pytest.mark.parametrize("name", GOOD)
def test_in_every_scene_each_lap_is_clear_of_the_metal_below(name: str) -> None:
    """On every kept leg the piece on top lies at least one thickness out of the other's painted side."""
    plan = layout(name)
    for run in plan.runs:
        parts = [part for part in plan.parts if part.run is run]
        kept = run.section.normals[[leg.strip for leg in run.section.legs if not leg.relieved]]
        for before, after in pairwise(parts):
            over, under = (after, before) if after.piece.lies == "over" else (before, after)
            for u in (after.low, before.high):
                apart = shift(run, over.placement, u) - shift(run, under.placement, u)
                assert (kept @ apart).min() >= run.section.thickness - SLACK


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_every_placement_is_rigid(name: str) -> None:
    for part in layout(name).parts:
        turn = part.placement[:3, :3]
        assert turn.T @ turn == pytest.approx(np.eye(3), abs=1e-9)
