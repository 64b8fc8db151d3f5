"""The one name that the whole package has for an array of numbers."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
"""Numbers; its shape, unit and frame stand in the docstring of whatever has it."""
