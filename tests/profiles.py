"""Sections of the catalogue's profiles on a roof of any pitch, without a roof."""

import math

from trimwright.model.metals import METALS
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.profiles.section import Section, bend_section
from trimwright.model.runs import RIB


def section_of(name: str, pitch: float, thickness: float = 0.0239, radius: float = 1 / 32) -> Section:
    profile = catalogue()[name]
    turned = {"plumb": math.pi / 2 - pitch, "square": math.pi / 2, "deck": 0.0}
    if "ridge" in profile.edges or "hip" in profile.edges:
        turned |= {"deck": -pitch, "far deck": pitch}
    if "valley" in profile.edges:
        turned |= {"deck": pitch, "far deck": -pitch, "rib up": -RIB, "rib down": RIB}
    if profile.edges == ("rake",):
        turned["plumb"] = math.pi / 2  # of a gable square to the eaves
    if "break" in profile.edges:
        turned |= {"deck": 0.0, "far deck": pitch}
    if "high" in profile.edges:
        turned["plumb"] = math.pi / 2 + pitch
    return bend_section(name, profile, turned, METALS["steel"], thickness, radius, rise=0.0, standoff=0.0)
