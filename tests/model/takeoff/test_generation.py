"""The bound of a search for cutting plans, where it follows from the metal alone."""

from fractions import Fraction
from math import ceil

from trimwright.model.takeoff.generation import CELLS, solve
from trimwright.model.takeoff.problem import CuttingProblem, Stick


def test_metal_alone_bounds_what_is_too_long_to_search() -> None:
    """By hand: ten halves of a stick at 1 a step; two sticks on hand cost 2/5 of that, and save 3/5 of a stick each."""
    room = CELLS + 2
    half = room // 2
    problem = CuttingProblem((half,), (10,), (Stick(room, room, None), Stick(room, room * 2 // 5, 2)))
    cheap = Fraction(room * 2 // 5)
    assert solve(problem, lambda: 1.0).bound == ceil(10 * half - 2 * (room - cheap))
