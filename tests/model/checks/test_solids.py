"""How deep solids run into each other, against boxes worked by hand and against another library."""

import manifold3d
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trimwright.model.checks.solids import clashes
from trimwright.model.sheet.solid import Solid

T = 0.024


def plate(width, height, thickness=T):
    """Return a plate on x and y from the origin, its painted side up at z = thickness."""
    ring = np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=float)
    top = np.column_stack([ring, np.full(4, thickness)])
    under = np.column_stack([ring, np.zeros(4)])
    cap = np.array([[0, 1, 2], [0, 2, 3]])
    walls = [[i, i + 4, (i + 1) % 4] for i in range(4)] + [
        [(i + 1) % 4, i + 4, (i + 1) % 4 + 4] for i in range(4)
    ]
    faces = np.concatenate([cap, cap[:, ::-1] + 4, np.array(walls)])
    return Solid(
        np.concatenate([top, under]), faces, np.repeat(np.array([1, -1, 0], dtype=np.int8), [2, 2, 8])
    )


def moved(solid, shift=(0, 0, 0), turn=None):
    turn = np.eye(3) if turn is None else turn
    return Solid(solid.vertices @ turn.T + np.asarray(shift, dtype=float), solid.faces, solid.side)


UPRIGHT = np.array([[1.0, 0, 0], [0, 0, -1], [0, 1, 0]])


@pytest.mark.parametrize(
    ("shift", "depth"),
    [
        pytest.param((0, 0, T), None, id="lying on it: no depth"),
        pytest.param((0, 0, 0.75 * T), 0.25 * T, id="a quarter sheet deep: allowed"),
        pytest.param((0, 0, 0.25 * T), 0.75 * T, id="three quarters of a sheet deep"),
        pytest.param((10, 0, 0), None, id="edge to edge"),
        pytest.param((10 - 0.4 * T, 0, 0), 0.4 * T, id="edges overlap by 0.4 sheets: allowed"),
        pytest.param((9, 0, 0.1 * T), 0.9 * T, id="one inch of it nearly flush"),
        pytest.param((40, 0, 0), None, id="far away"),
    ],
)
def test_two_plates_by_hand(shift, depth):
    found = clashes([plate(10, 4), moved(plate(10, 4), shift)], 0.5 * T)
    if depth is None or depth < 0.5 * T:
        assert found == []
    else:
        assert [(c.first, c.second) for c in found] == [(0, 1)]
        assert found[0].depth == pytest.approx(depth)


def test_a_plate_standing_through_another_must_move_as_far_as_it_stands_through():
    standing = moved(plate(2, 3), (4, 2, -1), UPRIGHT)
    found = clashes([plate(10, 4), standing], 0.5 * T)
    assert found[0].depth == pytest.approx(1 + T)
    assert found[0].point == pytest.approx([5, 2 - T / 2, T / 2])


def test_a_piece_is_never_compared_with_itself_and_no_solids_give_nothing():
    assert clashes([plate(10, 4)], 0.0) == []
    assert clashes([], 0.0) == []


def random_turn(rng):
    q, r = np.linalg.qr(rng.normal(size=(3, 3)))
    q = q * np.sign(np.diag(r))
    return q if np.linalg.det(q) > 0 else -q


def volume_shared(first, second):
    def body(solid):
        mesh = manifold3d.Mesh(
            np.asarray(solid.vertices, dtype=np.float32), np.asarray(solid.faces, dtype=np.uint32)
        )
        made = manifold3d.Manifold(mesh)
        assert made.status() == manifold3d.Error.NoError
        return made

    return (body(first) ^ body(second)).volume()


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_agrees_with_booleans_on_whether_two_plates_share_metal(seed):
    rng = np.random.default_rng(seed)
    first = moved(plate(3, 2, 0.3), rng.uniform(-1, 1, 3), random_turn(rng))
    second = moved(plate(2, 2, 0.3), rng.uniform(-1, 1, 3), random_turn(rng))
    found = clashes([first, second], 1e-3)
    shared = volume_shared(first, second)
    if found and found[0].depth > 0.01:
        assert shared > 0
    if not found:
        assert shared < 0.05


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_moving_and_turning_both_changes_no_depth(seed):
    rng = np.random.default_rng(seed)
    pair = [plate(3, 2, 0.3), moved(plate(2, 2, 0.3), rng.uniform(0, 1, 3), random_turn(rng))]
    turn, shift = random_turn(rng), rng.uniform(-100, 100, 3)
    before, after = clashes(pair, 0.01), clashes([moved(s, shift, turn) for s in pair], 0.01)
    assert [c.depth for c in before] == pytest.approx([c.depth for c in after], abs=1e-6)
