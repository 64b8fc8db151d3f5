"""What to buy, as plain values: which lengths of stock, and which pieces come out of each."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from trimwright.model.layout import Layout
from trimwright.model.takeoff.cutting import cut_from
from trimwright.model.takeoff.plan import Demand, Plan, Stock
from trimwright.model.tolerances import TAPE


def plans_of(layout: Layout) -> tuple[Plan, ...]:
    """Return the cutting plan of every profile, in the order of the runs.

    A piece longer than all stock is made to its own length: the plan buys that length for it alone.
    """
    demands: dict[str, list[Demand]] = defaultdict(list)
    for part in layout.parts:
        demands[part.run.section.profile].append(Demand(part.mark, part.length))
    longest = max(layout.scene.metal.stock)
    plans = []
    for profile, wanted in demands.items():
        special = sorted({demand.length for demand in wanted if demand.length > longest + TAPE})
        stock = [Stock(length) for length in (*layout.scene.metal.stock, *special)]
        plans.append(cut_from(profile, [_trimmed(demand, longest) for demand in wanted], stock))
    return tuple(plans)


def stock_of(layout: Layout) -> dict[str, Any]:
    """Return the takeoff: one row for each length bought, and what else is counted."""
    plans = plans_of(layout)
    return {
        "stock": [
            {
                "profile": plan.profile,
                "length": bought.length,
                "pieces": bought.pieces,
                "offcut": bought.offcut,
            }
            for plan in plans
            for bought in plan.lengths
        ],
        "waste": waste_of(plans),
        "proven": all(plan.proven for plan in plans),
        "screws": len(layout.screws),
        "panels": len(layout.panels),
    }


def waste_of(plans: tuple[Plan, ...]) -> float:
    """Return the share of the metal taken that does not go on to the roof."""
    taken = sum(plan.taken for plan in plans)
    return 1 - sum(plan.used for plan in plans) / taken if taken else 0.0


def _trimmed(demand: Demand, longest: float) -> Demand:
    """Return a piece that is longer than stock by less than a tape shows as one of that length."""
    over = longest < demand.length <= longest + TAPE
    return Demand(demand.mark, longest) if over else demand
