"""What a scene says about the rules: which set, other limits, and what is accepted or off, with reasons."""

from __future__ import annotations

import math
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo

from ..measures import MeasureError, parse_length, shorten
from ..message import message
from .fields import Spec, Text, refusal, unit_of

Number = float | tuple[float, float]


class LimitSpec(Spec):
    """A limit of the scene's own in place of the rule set's.

    Attributes:
        value: One number or the two ends of a band: a bare number as written, in the limit's own unit;
            a length with its unit, in inches.
        inches: The same for a limit that is a length: a bare number is in the scene's unit.
        reason: Why; None when the scene gives none.
    """

    value: Number
    inches: Number
    reason: Text | None = None


def _limit(value: object, info: ValidationInfo) -> object:
    """Return a bare limit as the table it stands for, with its value read both ways."""
    if isinstance(value, LimitSpec):
        return value
    table = dict(value) if isinstance(value, dict) else {"value": value}
    if "value" not in table:
        raise refusal(message('value is missing; give {{ value = ..., reason = "..." }}'))
    if "inches" in table:
        raise refusal(message("inches is no key of a limit; give value, with a unit if it is a length"))
    came: Any = table["value"]
    ends = came if isinstance(came, list | tuple) else [came]
    if not ends or len(ends) > 2:
        raise refusal(
            message(
                "{came} is no limit; give one number, or two for a band, such as [6, 8]", came=shorten(came)
            )
        )
    written: list[float] = []
    inches: list[float] = []
    for end in ends:
        try:
            length = parse_length(end, unit_of(info))
        except MeasureError as error:
            raise refusal(error.message) from None
        inches.append(length)
        written.append(length if isinstance(end, str) else float(end))
    if any(not 0 <= end < math.inf for end in written) or written != sorted(written):
        raise refusal(
            message(
                "{came} is no limit; give 0 or more, and the smaller end of a band first", came=shorten(came)
            )
        )
    single = not isinstance(came, list | tuple) or len(ends) == 1
    table["value"], table["inches"] = (written[0], inches[0]) if single else (tuple(written), tuple(inches))
    return table


class AcceptSpec(Spec):
    """A finding that is accepted.

    Attributes:
        rule: Its rule.
        where: Mark of a piece or name of a run; None for everywhere, which errors are not accepted at.
        reason: Why; printed with the finding.
    """

    rule: Text
    where: Text | None = None
    reason: Text


class RulesSpec(Spec):
    """The rules in force.

    Attributes:
        set: Name of the rule set.
        limits: Other limits, by rule.
        accept: Findings that are accepted.
        off: Rules that are not asked, by name, with the reason.
    """

    set: Literal["common practice", "high wind", "code minimum"] = "common practice"
    limits: dict[Text, Annotated[LimitSpec, BeforeValidator(_limit)]] = Field(default_factory=dict)
    accept: Annotated[tuple[AcceptSpec, ...], Field(max_length=500)] = ()
    off: dict[Text, Text] = Field(default_factory=dict)
