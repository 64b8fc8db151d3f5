"""How sure a length has to be for nothing to be told."""

import pytest
from zoo import SCENES

from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import read_scene
from trimwright.model.sureness.record import RunSureness, Sureness

BOAT_SHED = next(path for path in SCENES if path.stem == "boat-shed")


@pytest.mark.parametrize(("short", "told"), [(0.02, False), (0.1, True), (0.9, True), (0.98, False)])
def test_what_turns_out_so_in_nearly_all_roofs_or_in_nearly_none_is_in_no_doubt(
    short: float, told: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Less than 5 roofs of 100 on either side are not told."""
    run = RunSureness("front eave", (120, 121), True, (), short, bare=0.0)
    monkeypatch.setattr(Layout, "sureness", Sureness({run.run: run}, (), {}, tried=100))
    found = [one.where for one in check(build(read_scene(BOAT_SHED))) if one.rule == "length-in-doubt"]
    assert found == ["front eave"] * told
