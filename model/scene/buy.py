"""What a scene says about buying: stock with prices and counts, what is lost at a cut, and what to save."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, StrictBool, StrictInt, model_validator

from ..message import message
from .fields import BoundedLength, Spec, Stock, Text, refusal

Kerf = Annotated[float, BoundedLength(0, 0.5, "1/8 in")]
Price = Annotated[float, Field(gt=0, le=1e6)]
Count = Annotated[StrictInt, Field(ge=1, le=10_000)]


class StockSpec(Spec):
    """A length that trim can be cut from, beside the metal's own or with what is known about one of those.

    Attributes:
        length: Inches.
        profile: The profile that it is a length of, or ``cleat`` for continuous cleats; None for all of them.
        price: Of one length, in any currency; None when unknown.
        count: How many there are; None for as many as are wanted.
        on_hand: It is there and paid for.
    """

    length: Stock
    profile: Text | None = None
    price: Price | None = None
    count: Count | None = None
    on_hand: StrictBool = False

    @model_validator(mode="after")
    def _counted(self) -> StockSpec:
        if self.on_hand and self.count is None:
            raise refusal(message("what is on hand has a count; give count, such as count = 4"))
        if self.on_hand and self.price is not None:
            raise refusal(message("what is on hand is paid for; leave its price out"))
        if self.on_hand and self.profile is None:
            raise refusal(message('what is on hand has a shape; give profile, such as profile = "hook rake"'))
        return self


def _stock(value: Any) -> Any:
    """Return a bare length as the table it stands for."""
    return value if isinstance(value, dict | StockSpec) else {"length": value}


class BuySpec(Spec):
    """How to buy.

    Attributes:
        objective: What to make least of: the metal bought, the number of lengths, or the money.
        kerf: Lost at each cut, inches; 0 for snips and shears.
        stock: Further lengths, prices, and what is on hand.
    """

    objective: Literal["metal", "lengths", "money"] = "metal"
    kerf: Kerf = 0.0
    stock: Annotated[tuple[Annotated[StockSpec, BeforeValidator(_stock)], ...], Field(max_length=200)] = ()
