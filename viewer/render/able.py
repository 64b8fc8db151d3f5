"""Whether this machine can draw: asked of another process, because without a driver drawing ends the process."""

from __future__ import annotations

import subprocess
import sys
from functools import cache

from trimwright.model.message import message

from .errors import PictureError

LONGEST = 60
"""Seconds that a machine may take to draw an empty picture."""

_ASK = """
import vtkmodules.vtkRenderingOpenGL2
from vtkmodules.vtkCommonCore import vtkLogger
from vtkmodules.vtkRenderingCore import vtkRenderWindow
vtkLogger.SetStderrVerbosity(vtkLogger.VERBOSITY_OFF)
window = vtkRenderWindow()
window.SetOffScreenRendering(True)
window.SetSize(8, 8)
window.Render()
assert window.SupportsOpenGL()
print("drawn", flush=True)
"""


def require_drawing() -> None:
    """Return if pictures can be drawn off screen.

    Raises:
        PictureError: They cannot; says what is wanting.
    """
    if not _draws():
        raise PictureError(
            message(
                "no pictures: this machine has no OpenGL driver that draws without a screen; on Debian or Ubuntu, "
                "install libegl1, libgl1 and libgl1-mesa-dri"
            )
        )


@cache
def _draws() -> bool:
    try:
        asked = subprocess.run(
            [sys.executable, "-c", _ASK], capture_output=True, timeout=LONGEST, check=False
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
    return asked.returncode == 0 and b"drawn" in asked.stdout
