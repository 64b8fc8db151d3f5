"""Whether a roof came out sound: no rule finds an error, and no sheet passes through another."""

from solids import depths

from trimwright.model.checks.run import check
from trimwright.model.layout import Layout


def assert_sound(layout: Layout) -> None:
    """Check a layout by every rule, and by manifold3d that no overlap is deeper than half a sheet."""
    assert [str(found.message) for found in check(layout) if found.severity == "error"] == []
    assert depths(layout) == []
