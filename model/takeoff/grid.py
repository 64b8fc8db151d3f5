"""Lengths in whole steps: stock rounded down, pieces rounded up, so that what is planned can be cut."""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction
from functools import reduce

from ..tolerances import POINT, TAPE

FINEST = Fraction(1, 512)
"""No step is smaller than this, inches: well below what a tape shows, and few enough steps in a length."""

EXACT = 64 * 127
"""Sixty-fourths of an inch and whole millimeters are both exact in fractions of this."""


def step_of(stock: Iterable[float]) -> Fraction:
    """Return the largest step, at most 1/64 in, that every stock length is a whole number of.

    A piece as long as its stock must fit it, in inches and in millimeters alike. Where such a step would be
    smaller than ``FINEST`` it is ``FINEST``.

    Args:
        stock: Stock lengths, inches, each more than 0.
    """
    common = reduce(_common, (Fraction(length).limit_denominator(EXACT) for length in stock))
    step = common / math.ceil(common / Fraction(TAPE))
    return max(step, FINEST)


def down(length: float, step: Fraction) -> int:
    """Return how many whole steps a stock length holds."""
    return math.floor((Fraction(length) + Fraction(POINT)) / step)


def up(length: float, step: Fraction) -> int:
    """Return how many whole steps hold a piece or a kerf."""
    return math.ceil((Fraction(length) - Fraction(POINT)) / step)


def _common(a: Fraction, b: Fraction) -> Fraction:
    """Return the greatest length that both are whole numbers of."""
    over = math.lcm(a.denominator, b.denominator)
    return Fraction(math.gcd(int(a * over), int(b * over)), over)
