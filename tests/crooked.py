"""Crooked roofs: every corner moved at random, faces still plane and eaves level."""

import numpy as np
from scipy.linalg import lstsq, null_space

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Roof
from trimwright.model.survey.assumed import assumed
from trimwright.model.survey.quantities import Quantity


def crooked(roof: Roof, random: np.random.Generator, inches: float = 1.0) -> Array:
    """Return corners ``(n, 3)`` about so many inches from the roof's."""
    taken = assumed(roof)
    free = null_space(taken.changes(roof.vertices), rcond=1e-9)
    moves = free @ random.normal(0.0, inches, free.shape[1])
    points = roof.vertices + moves.reshape(-1, 3)
    for _ in range(30):
        back = lstsq(taken.changes(points), -taken.off(points), cond=1e-9)[0]
        points = points + back.reshape(-1, 3)
    return points


def read_off(measures: tuple[Quantity, ...], points: Array) -> dict[str, float]:
    """Return what an exact tape reads."""
    return {one.name: one.value(points) for one in measures}
