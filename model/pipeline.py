"""The pipeline: from a scene to a layout, one call a stage, one way."""

from __future__ import annotations

from collections import defaultdict

import numpy as np

from .drips import meet_drips
from .fitting import fit_pieces
from .layout import Layout, Part
from .limits.load import limits_for
from .panels.cleats import lay_cleats
from .panels.closures import held_along, joints_on_pans
from .panels.lay import lay_panels, seam_feet
from .panels.valley_cleats import lay_valley_cleats
from .roof.build import build_roof
from .runs import lay_runs
from .scene.schema import Scene
from .screw_lines import asked_of
from .screws import Screw, drilled, place_screws
from .setting_order import order_of_setting
from .sheet.solid import thicken
from .size_guard import MOST, Amount, amount_of, refuse_much
from .survey.survey import surveyed


def build(scene: Scene, most: Amount = MOST) -> Layout:
    """Return the layout that ``scene`` asks for.

    Args:
        scene: What is asked for.
        most: The most that a roof may take; more is refused before it is laid out.

    Raises:
        SceneError: the scene asks for what cannot be: an unknown profile, pieces that do not cover their run.
        GeometryError: a shape that cannot exist: a tab on its neighbor's metal, a leg too short for its bends.
    """
    limits = limits_for(scene.rules, scene.shop.brake)
    roof, survey = surveyed(build_roof(scene.roof), scene.roof.taped, scene.accuracy)
    refuse_much(amount_of(scene, limits, roof), most)
    runs, untrimmed = lay_runs(roof, scene, limits)
    runs = meet_drips(roof, runs, scene)
    fitted = fit_pieces(roof, runs, scene, limits.number("short-end-piece"))
    asked = asked_of(scene, limits)
    panels, closures = lay_panels(roof, scene, fitted, limits)
    cleats = (*lay_cleats(roof, fitted, scene, limits), *lay_valley_cleats(roof, fitted, scene))
    soft = {closure.at for closure in closures if closure.foam}
    feet = seam_feet(panels)
    for face, joints in joints_on_pans(closures).items():
        feet[face] = np.concatenate([feet.get(face, joints[:0]), joints])
    screws = place_screws(fitted, feet, held_along(closures, runs), scene, asked, soft)
    of_piece: dict[str, list[Screw]] = defaultdict(list)
    for screw in screws:
        of_piece[screw.mark].append(screw)
    parts = []
    for one in fitted:
        sheet = drilled(one.sheet, of_piece[one.piece.mark], scene.screws.pilot)
        solid = thicken(sheet, one.placement)
        parts.append(Part(one.piece, one.run, sheet, one.placement, one.ends, solid))
    order = order_of_setting(fitted, panels, closures, cleats)
    return Layout(
        scene, limits, roof, survey, runs, tuple(parts), screws, panels, closures, cleats, untrimmed, order
    )
