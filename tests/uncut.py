"""What of an end's outline no step of its work follows, measured by shapely."""

import shapely

from trimwright.model.joints.end import End


def left_uncut(end: End) -> float:
    """Return the length of the end's outline that no cut follows, inches."""
    lines = [shapely.LineString(line) for step in end.steps if step.verb == "cut" for line in step.lines]
    return float(shapely.LineString(end.cut.edge).difference(shapely.union_all(lines).buffer(1e-3)).length)
