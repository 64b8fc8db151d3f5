"""Compiled: what makes machine code of the loops over faces and pixels.

What is kept compiled is made anew when its own file changes, and no other file is looked at. So the kernels are in the
files ``raster_kernels``, ``light_kernels`` and ``outdoors_kernels``, and none calls or reads anything of another file.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba

Kernel = TypeVar("Kernel", bound=Callable[..., Any])


def kernel(function: Kernel) -> Kernel:
    """Return a function that is compiled for this machine when it is first called.

    The machine code is kept beside the source or in the user's own cache; where neither can be written, every process
    compiles for itself. While it runs, other threads of Python do too.
    """
    try:
        compiled = numba.njit(cache=True, nogil=True, error_model="numpy")(function)
    except RuntimeError:  # there is no folder to keep it in
        compiled = numba.njit(nogil=True, error_model="numpy")(function)
    return cast(Kernel, compiled)


def inlined(function: Kernel) -> Kernel:
    """Return a function that becomes part of each kernel that calls it.

    For what takes arrays: a call that hands over arrays takes longer than what is done with a pixel of them.
    """
    return cast(Kernel, numba.njit(inline="always")(function))
