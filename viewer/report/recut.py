"""What became of metal that is already cut: sentences, and the same as plain values."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from trimwright.model.message import Length, Listed, Message, counted, message
from trimwright.model.recut import Recut


def recut_told(found: Recut) -> Iterator[Message]:
    """Yield what stays good, what is cut again, and what is bought besides, a sentence each."""
    yield from _pieces(found)
    for trim in found.besides.trim:
        for length, count in trim.counts:
            yield message(
                "Buy besides: {count} x {length} of {label}.",
                count=count,
                length=Length(length),
                label=trim.label,
            )
    yield from _counts(found)


def _pieces(found: Recut) -> Iterator[Message]:
    """Yield what is said of pieces."""
    same = tuple(old for old, new in found.good if old == new)
    if same:
        yield message("Stay good: {marks}.", marks=Listed(same, "comma"))
    for old, new in found.good:
        if old != new:
            yield message("{old} is good as it is, as {new}.", old=old, new=new)
    for old, new in found.cut_down:
        if old == new:
            yield message("{old} can be cut shorter, if it is still flat.", old=old)
        else:
            yield message("{old} can be cut down to {new}, if it is still flat.", old=old, new=new)
    if found.useless:
        yield message("Nothing can be made of: {marks}.", marks=Listed(found.useless, "comma"))
    if found.recut:
        yield message("To be cut again: {marks}.", marks=Listed(found.recut, "comma"))
    rest = tuple(mark for mark in found.to_cut if mark not in found.recut)
    if rest:
        yield message("Still to be cut: {marks}.", marks=Listed(rest, "comma"))
    if found.changed:
        yield message("Not as they were: {marks}.", marks=Listed(found.changed, "comma"))
    else:
        yield message("No piece of trim has changed.")


def _counts(found: Recut) -> Iterator[Message]:
    """Yield what is bought besides of what is counted."""
    more = found.besides
    for one in more.panels:
        yield message(
            "Buy besides: {count} x {length} of panel, {width} wide.",
            count=one.count,
            length=Length(one.length),
            width=Length(one.width),
        )
    for one in more.closures:
        yield message(
            "Buy besides: {count} x {length} of closure.", count=one.count, length=Length(one.length)
        )
    if more.screws.buy:
        yield counted("Buy besides: {count} screw.", "Buy besides: {count} screws.", count=more.screws.buy)
    if more.cleats.buy:
        yield counted("Buy besides: {count} clip.", "Buy besides: {count} clips.", count=more.cleats.buy)
    nothing = not (more.panels or more.closures or more.screws.buy or more.cleats.buy)
    if nothing and not any(trim.counts for trim in more.trim):
        yield message("Nothing to buy besides.")


def recut_values(found: Recut) -> dict[str, Any]:
    """Return the same as plain values; lengths in inches."""
    more = found.besides
    return {
        "good": [{"cut": old, "as": new} for old, new in found.good],
        "cut_down": [{"cut": old, "to": new} for old, new in found.cut_down],
        "useless": list(found.useless),
        "to_cut": list(found.to_cut),
        "recut": list(found.recut),
        "changed": list(found.changed),
        "buy": {
            "lengths": [
                {"profile": trim.profile, "runs": list(trim.runs), "length": length, "count": count}
                for trim in more.trim
                for length, count in trim.counts
            ],
            "panels": [{"width": one.width, "length": one.length, "count": one.count} for one in more.panels],
            "closures": [{"length": one.length, "count": one.count} for one in more.closures],
            "screws": more.screws.buy,
            "clips": more.cleats.buy,
        },
    }
