"""What a workspace hands out as a file: every output that is one file and takes no renderer."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from trimwright.model.scene.read import scene_from

from ..display.stage import stage_of
from ..outputs.formats import OUTPUTS, Output
from ..outputs.work import Work
from ..outputs.write import made
from ..page.language_switch import in_language
from .results import Result

FILES: Mapping[str, Output] = {output.name: output for output in OUTPUTS if output.single}
"""By the end of its name."""


def file_of(result: Result, name: str) -> bytes:
    """Return what is in the file ``name`` of ``FILES``, in every language that the scene asks for."""
    layout = in_language(result.layout, *scene_from(result.drawn.text, "").language)
    stage = stage_of(layout, result.findings)
    work = Work(layout, result.findings, result.takeoff, stage, date.today().isoformat())
    return made(FILES[name], work)
