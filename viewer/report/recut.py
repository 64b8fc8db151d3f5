"""What became of metal that is already cut: sentences, and the same as plain values."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from trimwright.model.message import Length, Listed, Message, Value, counted, message
from trimwright.model.recut import Recut
from trimwright.model.takeoff.record import Takeoff

MOST_SIZES = 6
"""So many sizes of panels are read in one sentence."""


def recut_told(found: Recut) -> Iterator[Message]:
    """Yield what stays good, what is cut again, and what is bought besides: alike things in one sentence."""
    yield from _pieces(found)
    yield from _bought(found.besides)


def _pieces(found: Recut) -> Iterator[Message]:
    """Yield what is said of pieces."""
    if found.good:
        yield message("Stay good: {marks}.", marks=_renamed(found.good))
    if found.cut_down:
        yield message("Can be cut shorter, if still flat: {marks}.", marks=_renamed(found.cut_down))
    if found.useless:
        yield message("Nothing can be made of: {marks}.", marks=in_rows(found.useless))
    if found.recut:
        yield message("To be cut again: {marks}.", marks=in_rows(found.recut))
    rest = tuple(mark for mark in found.to_cut if mark not in found.recut)
    if rest:
        yield message("Still to be cut: {marks}.", marks=in_rows(rest))
    if found.changed:
        yield message("Not as they were: {marks}.", marks=in_rows(found.changed))
    else:
        yield message("No piece of trim has changed.")


def _renamed(pieces: Sequence[tuple[str, str]]) -> Listed:
    """Return pieces in a row: those that keep their mark, then each of the others with its new one."""
    same = [old for old, new in pieces if old == new]
    others = [message("{old} as {new}", old=old, new=new) for old, new in pieces if old != new]
    return Listed((*(in_rows(same).values if same else ()), *others), "comma")


def in_rows(marks: Sequence[str]) -> Listed:
    """Return marks in a row, those that follow each other on a run as the first and the last of them."""
    rows: list[list[str]] = []
    for mark in marks:
        if rows and _next_of(rows[-1][-1]) == mark:
            rows[-1].append(mark)
        else:
            rows.append([mark])
    told: list[Value] = []
    for row in rows:
        if len(row) > 2:
            told.append(message("{first} to {last}", first=row[0], last=row[-1]))
        else:
            told += row
    return Listed(tuple(told), "comma")


def _next_of(mark: str) -> str:
    """Return the mark of the piece that follows on the same run."""
    run, _, number = mark.rpartition("-")
    return f"{run}-{int(number) + 1}"


def _bought(more: Takeoff) -> Iterator[Message]:
    """Yield what is bought besides: trim, panels, and what is counted, a sentence each."""
    lengths: list[Value] = [
        message("{count} x {length} of {label}", count=count, length=Length(length), label=trim.label)
        for trim in more.cut
        for length, count in trim.counts
    ]
    panels = [
        message(
            "{count} x {length} by {width}",
            count=one.count,
            length=Length(one.length),
            width=Length(one.width),
        )
        for one in more.panels
    ]
    parts: list[Value] = []
    if more.closures:
        count, metal = (
            sum(one.count for one in more.closures),
            sum(one.count * one.length for one in more.closures),
        )
        parts.append(
            counted(
                "{count} closure, {length} in all",
                "{count} closures, {length} in all",
                count=count,
                length=Length(metal),
            )
        )
    if more.screws.buy:
        parts.append(counted("{count} screw", "{count} screws", count=more.screws.buy))
    if more.cleats.buy:
        parts.append(
            counted(
                "{count} cleat for the panels' seams",
                "{count} cleats for the panels' seams",
                count=more.cleats.buy,
            )
        )
    if lengths:
        yield message("Buy besides: {lengths}.", lengths=Listed(tuple(lengths)))
    if panels:
        yield _panels(panels, [one.count for one in more.panels])
    if parts:
        yield message("Buy besides: {parts}.", parts=Listed(tuple(parts)))
    if not (lengths or panels or parts):
        yield message("Nothing to buy besides.")


def _panels(sizes: Sequence[Message], counts: Sequence[int]) -> Message:
    """Return the panels to buy: every size where a person reads them, else those of which most are bought."""
    if len(sizes) <= MOST_SIZES:
        return counted(
            "Buy besides {count} panel: {sizes}.",
            "Buy besides {count} panels: {sizes}.",
            count=sum(counts),
            sizes=Listed(tuple(sizes)),
        )
    first = sorted(range(len(sizes)), key=lambda number: -counts[number])[:MOST_SIZES]
    return message(
        "Buy besides {count} panels, among them {sizes}; --json lists all {kinds} sizes.",
        count=sum(counts),
        sizes=Listed(tuple(sizes[number] for number in first)),
        kinds=len(sizes),
    )


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
                for trim in more.cut
                for length, count in trim.counts
            ],
            "panels": [{"width": one.width, "length": one.length, "count": one.count} for one in more.panels],
            "closures": [{"length": one.length, "count": one.count} for one in more.closures],
            "screws": more.screws.buy,
            "cleats": more.cleats.buy,
        },
    }
