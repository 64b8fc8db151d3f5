"""One piece of each profile against OpenCascade (build123d): volume, area and bounding box.

The reference thickens the section with shapely's mitered buffer, extrudes it and cuts it with a plane in
OpenCascade; of the sheet kernel it uses nothing but the section's points.
"""

import numpy as np
import pytest
import shapely
import trimesh
from build123d import Face, Plane, Polyline, Solid, Vector, Wire
from profiles import section_of

from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.profiles.section import Section
from trimwright.model.sheet.cut import path, plane_cut, square_cut
from trimwright.model.sheet.sheet import Cut, Sheet
from trimwright.model.sheet.solid import thicken

LENGTH = 48.0


def extruded(section: Section, length: float) -> Solid:
    """Return the section, thickened by shapely and extruded by OpenCascade along x."""
    band = shapely.LineString(section.points).buffer(
        section.thickness / 2, cap_style="flat", join_style="mitre", mitre_limit=20
    )
    ring = [Vector(0, float(y), float(z)) for y, z in band.exterior.coords]
    wire = Wire(Polyline(ring[:-1], close=True).edges())
    return Solid.extrude(Face(wire), Vector(length, 0, 0))


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_a_square_piece_agrees_with_opencascade(name: str) -> None:
    section = section_of(name, 0.46)
    sheet = Sheet(
        section, Cut(path(section, square_cut(section, 0.0))), Cut(path(section, square_cut(section, LENGTH)))
    )
    ours = thicken(sheet, np.eye(4))
    mesh = trimesh.Trimesh(ours.vertices, ours.faces, process=False)
    theirs = extruded(section, LENGTH)
    box = theirs.bounding_box()
    assert ours.volume == pytest.approx(theirs.volume, rel=1e-6)
    assert mesh.area == pytest.approx(theirs.area, rel=1e-6)
    assert np.allclose(ours.vertices.min(axis=0), tuple(box.min), atol=1e-6)
    assert np.allclose(ours.vertices.max(axis=0), tuple(box.max), atol=1e-6)


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_a_mitered_piece_agrees_with_opencascade(name: str) -> None:
    """A sheet is cut square to its surface, a solid along the plane: the volumes are the same but for the bends."""
    section = section_of(name, 0.46)
    normal = np.array([1.0, 0.55, -0.35])
    point = np.array([LENGTH - 8.0, 0.0, 0.0])
    sheet = Sheet(
        section,
        Cut(path(section, square_cut(section, 0.0))),
        Cut(path(section, plane_cut(section, np.eye(4), point, normal))),
    )
    theirs = extruded(section, LENGTH).split(Plane(Vector(*point), z_dir=Vector(*(-normal))))
    assert thicken(sheet, np.eye(4)).volume == pytest.approx(theirs.volume, rel=1e-4)
