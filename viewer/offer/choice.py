"""A choice: the roof in one look, and what it comes to so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.dressed import dressed
from trimwright.model.scene.schema import Scene
from trimwright.model.takeoff.count import take_off

from .offer import Offer, offer_of
from .price_list import PriceList
from .quantities import quantities_of


@dataclass(frozen=True, slots=True, eq=False)
class Choice:
    """The roof in one look.

    Attributes:
        name: Of the look; empty for the scene as it is.
        layout: The roof so.
        offer: What it comes to.
    """

    name: str
    layout: Layout
    offer: Offer


def choices_of(scene: Scene, prices: PriceList | None) -> Iterator[Choice]:
    """Yield the scene as it is, and then in each of its looks.

    Raises:
        TrimwrightError: It cannot be laid out, or there is too little stock.
    """
    for name, one in (("", scene), *((look.name, dressed(scene, look)) for look in scene.look)):
        layout = build(one)
        yield Choice(
            name, layout, offer_of(quantities_of(layout, take_off(layout), scene.metal.kind), prices)
        )
