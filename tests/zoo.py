"""The zoo: the scenes of the repository, built once and shared by all tests."""

from functools import cache
from pathlib import Path

from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.mend.trial import Tried, with_changes
from trimwright.model.pipeline import build
from trimwright.model.scene.draft import draft_of
from trimwright.model.scene.read import read_scene, scene_from

SCENES = sorted(Path(__file__, "..", "..", "scenes").resolve().glob("*.toml"))
NAMES = [path.stem for path in SCENES]

UNEVEN_HIP = """
title = "Uneven hip"
[roof]
form = "hip"
length = "36'"
width = "22'"
pitch = "5/12"
end_pitch = "9/12"
"""

BOXED = """
title = "Boxed gable"
[roof]
form = "gable"
length = "24'"
width = "26'"
pitch = "8/12"
far_pitch = "5/12"
[trim.rake]
profile = "box rake"
[trim.eave]
profile = "plain drip"
"""

STEEP_SHED = """
title = "Steep shed"
[roof]
form = "shed"
length = "24'"
width = "10'"
pitch = "18/12"
wall_height = "20'"
"""

SHALLOW_EAVE = (
    next(path for path in SCENES if path.stem == "boat-shed").read_text(encoding="utf-8")
    + """
[trim.eave]
face = "3 1/2 in"
"""
)

TWO_PITCHES = """
title = "Shed of two pitches"
[roof]
form = "shed"
length = "24'"
width = "16'"
pitch = "4/12"
break_at = "6'"
upper_pitch = "10/12"
wall_height = "7'"
"""

OTHERS = {
    "shallow-eave": SHALLOW_EAVE,
    "uneven-hip": UNEVEN_HIP,
    "boxed-gable": BOXED,
    "steep-shed": STEEP_SHED,
    "two-pitches": TWO_PITCHES,
}


@cache
def layout(name: str) -> Layout:
    """Return the layout of a scene of the zoo, or of one of the others above."""
    if name in OTHERS:
        return build(scene_from(OTHERS[name], f"{name}.toml"))
    return build(read_scene(next(path for path in SCENES if path.stem == name)))


@cache
def told(name: str) -> tuple[Finding, ...]:
    """Return the findings in a scene of the repository as they are told: with the changes that remove them."""
    text = next(path for path in SCENES if path.stem == name).read_text(encoding="utf-8")
    there = layout(name)
    return with_changes(Tried(draft_of(text), there, check(there)))
