"""Seams beside a rake within a face, as a porch has, keep off the row of screws that runs along it."""

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from

PORCH = """
title = "Porch before a house with a wing"
[roof]
form = "outline"
outline = [["0","0"], ["38'","0"], ["38'","22'"], ["20'","22'"], ["20'","36'"], ["0","36'"]]
pitch = "7/12"
wall_height = "9'"
overhang = { eave = "14 in", rake = "10 in" }
sides = { 2 = { edge = "gable" }, 5 = { edge = "gable" } }
[[roof.porch]]
side = 1
from = "10'"
to = "24'"
depth = "6'"
[metal]
stock = ["10'"]
"""


def test_seams_keep_off_the_screws_of_a_porch_s_rakes() -> None:
    layout = build(scene_from(PORCH, "porch.toml"))
    assert not [str(finding.message) for finding in check(layout) if finding.severity != "note"]
