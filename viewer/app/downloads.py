"""What a workspace hands out as a file: every output that is one file and takes no renderer."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from ..outputs.table import OUTPUTS, Output
from ..outputs.work import Work
from ..outputs.write import made
from .results import Result

FILES: Mapping[str, Output] = {output.name: output for output in OUTPUTS if output.single}
"""By the end of its name."""


def file_of(result: Result, name: str) -> bytes:
    """Return what is in the file ``name`` of ``FILES``."""
    drawn = result.drawn
    work = Work(result.layout, result.findings, result.takeoff, drawn.stage, date.today().isoformat())
    return made(FILES[name], work)
