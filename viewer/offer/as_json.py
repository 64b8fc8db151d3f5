"""An offer as numbers that another program can reckon with: JSON, every amount a decimal written as text."""

from __future__ import annotations

import json
from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from ..words.speaker import Speaker, speaker_of
from .choice import Choice
from .offer import Offer


def numbers_of(choices: Sequence[Choice]) -> str:
    """Return the offer as JSON: its title, currency, and for each choice lines, what has no price, and sums."""
    scene = choices[0].layout.scene
    say = speaker_of(scene)
    told = {
        "title": scene.title,
        "currency": scene.shop.currency,
        "choices": [{"name": choice.name, **_offer(choice.offer, say)} for choice in choices],
    }
    return json.dumps(told, ensure_ascii=False, indent=2) + "\n"


def _offer(offer: Offer, say: Speaker) -> dict[str, Any]:
    return {
        "lines": [
            {
                "item": line.item,
                "words": say(line.words),
                "group": line.group,
                "quantity": _written(line.quantity),
                "unit": line.unit,
                "price": _written(line.price),
                "amount": _written(line.amount),
            }
            for line in offer.lines
        ],
        "unpriced": [
            {"item": each.quantity.items[0], "words": say(each.quantity.words), "listed": list(each.listed)}
            for each in offer.unpriced
        ],
        "lines_total": _written(offer.lines_total),
        "added_rate": None if offer.added_rate is None else _written(offer.added_rate),
        "added": _written(offer.added),
        "tax_rate": None if offer.tax_rate is None else _written(offer.tax_rate),
        "tax": _written(offer.tax),
        "total": _written(offer.total),
    }


def _written(value: Decimal) -> str:
    return format(value, "f")
