"""What to buy, as plain values: which lengths of stock, which pieces come out of each, and what else is counted."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from trimwright.model.takeoff.record import Lengths, Takeoff


def stock_of(takeoff: Takeoff) -> dict[str, Any]:
    """Return a takeoff as plain values: one row for each length, and what else is counted."""
    return {
        "stock": [
            {
                "profile": trim.profile,
                "length": bought.length,
                "pieces": bought.pieces,
                "offcut": bought.offcut,
                "on_hand": bought.from_hand,
            }
            for trim in takeoff.cut
            for bought in trim.plan.lengths
        ],
        "waste": takeoff.waste,
        "proven": takeoff.proven,
        "weight": takeoff.weight,
        "price": takeoff.price,
        "screws": takeoff.screws.needed,
        "cleats": takeoff.cleats.needed,
        "panels": _counted(takeoff.panels),
        "closures": _counted(takeoff.closures),
        "coils": [
            {"of": coil.what, "width": coil.width, "length": coil.length, "weight": coil.weight}
            for coil in takeoff.coils
        ],
        "sealant": takeoff.sealant.bead,
    }


def _counted(lengths: Sequence[Lengths]) -> list[dict[str, Any]]:
    return [{"width": each.width, "length": each.length, "count": each.count} for each in lengths]
