"""A gable house whose front slope goes on down over a porch, as a scene writes its roof."""

from typing import Any


def porch_roof(
    length: float = 480,
    width: float = 288,
    first: float = 120,
    last: float = 312,
    depth: float = 72,
    **more: Any,
) -> dict[str, Any]:
    """Return the roof: the eave of side 1 is carried down from ``first`` to ``last`` along it; inches throughout.

    Args:
        length: Of the house along that eave.
        width: Of its gables.
        first: Where the porch begins.
        last: Where it ends.
        depth: How far it stands out.
        more: Other keys of the roof, or other values.
    """
    return {
        "form": "outline",
        "outline": [[0, 0], [length, 0], [length, width], [0, width]],
        "pitch": "6/12",
        "sides": {"2": {"edge": "gable"}, "4": {"edge": "gable"}},
        "wall_height": 168,
        "porch": [{"side": 1, "from": first, "to": last, "depth": depth}],
        **more,
    }
