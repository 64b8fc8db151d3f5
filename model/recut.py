"""Recut: what metal already cut is still good for once the roof is laid out otherwise, and what to buy besides."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import affinity

from .errors import Problem, SceneError
from .geometry.arrays import Array
from .layout import Layout, Part
from .message import Listed, message
from .scene.buy import StockSpec
from .sheet.sheet import Sheet
from .takeoff.count import alike, take_off, without
from .takeoff.plan import Bought
from .takeoff.record import Lengths, Takeoff
from .tolerances import TAPE

SCRAP = 6.0
"""What is left of a length and no longer than this is scrap, inches: no piece of trim is as short."""


@dataclass(frozen=True, slots=True, eq=False)
class Recut:
    """What a change of the layout does to metal that is there.

    Attributes:
        good: Pieces already cut that are good as they are: their old mark, and the mark they have now.
        cut_down: Pieces already cut that another one can be cut from: their mark, and that of what becomes of them.
        useless: Marks of pieces already cut that nothing can be made of.
        to_cut: Marks of the pieces that are still to be cut, from lengths.
        recut: Those of them that had been cut, and have to be cut again.
        changed: Marks of the pieces that are not as they were.
        besides: What to buy for what is still to be cut, beside the lengths that the old layout took and nobody has
            cut, and for panels and small parts beside those that it had.
    """

    good: tuple[tuple[str, str], ...]
    cut_down: tuple[tuple[str, str], ...]
    useless: tuple[str, ...]
    to_cut: tuple[str, ...]
    recut: tuple[str, ...]
    changed: tuple[str, ...]
    besides: Takeoff


def recut(old: Layout, new: Layout) -> Recut:
    """Return what becomes of the pieces of ``old`` that are already cut, as either scene says, under ``new``.

    Where neither says that any is cut, all lengths are whole.

    Raises:
        SceneError: A piece is said to be cut that the old layout has not.
    """
    cut = _cut(old, new)
    good = _matched(cut, new.parts, _is_same)
    done = {mark for _, mark in good}
    used = {mark for mark, _ in good}
    left = sorted((part for part in new.parts if part.mark not in done), key=lambda part: -part.length)
    rest = sorted((part for part in cut if part.mark not in used), key=lambda part: part.length)
    down = _matched(rest, left, _holds)
    done |= {mark for _, mark in down}
    used |= {mark for mark, _ in down}
    to_cut = tuple(part for part in new.parts if part.mark not in done)
    marks = {part.mark for part in cut}
    return Recut(
        good=tuple(good),
        cut_down=tuple(down),
        useless=tuple(part.mark for part in cut if part.mark not in used),
        to_cut=tuple(part.mark for part in to_cut),
        recut=tuple(part.mark for part in to_cut if part.mark in marks),
        changed=tuple(_changed(old, new)),
        besides=_besides(old, new, to_cut, marks),
    )


def _cut(old: Layout, new: Layout) -> list[Part]:
    """Return the pieces of ``old`` that are already cut, in its order."""
    marks = {part.mark: part for part in old.parts}
    said = dict.fromkeys((*old.scene.cut, *new.scene.cut))
    unknown = [mark for mark in said if mark not in marks]
    if unknown:
        told = message(
            "{marks}: the old layout has no such piece; it has {known}",
            marks=Listed(tuple(unknown), "comma"),
            known=Listed(tuple(marks), "comma"),
        )
        raise SceneError(Problem(told, ("cut",)))
    return [part for part in old.parts if part.mark in said]


def _changed(old: Layout, new: Layout) -> Iterator[str]:
    """Yield the marks of the pieces that have another shape than the piece of that mark had."""
    before = {part.mark: part for part in old.parts}
    for part in new.parts:
        if part.mark not in before or not _is_same(before[part.mark], part):
            yield part.mark


def _matched(
    cut: Sequence[Part], wanted: Sequence[Part], suits: Callable[[Part, Part], bool]
) -> list[tuple[str, str]]:
    """Return each wanted piece with one already cut that suits it: first those whose own piece does, then the rest."""
    free = {part.mark: part for part in cut}
    found: dict[str, str] = {}
    for part in wanted:
        if part.mark in free and suits(free[part.mark], part):
            found[part.mark] = free.pop(part.mark).mark
    for part in wanted:
        one = next((one for one in free.values() if part.mark not in found and suits(one, part)), None)
        if one is not None:
            found[part.mark] = free.pop(one.mark).mark
    return [(found[part.mark], part.mark) for part in wanted if part.mark in found]


def _is_same(one: Part, other: Part) -> bool:
    """Return whether two pieces are cut, bent and drilled alike, as closely as a tape shows."""
    if not _formed_alike(one, other) or abs(one.length - other.length) > 2 * TAPE:
        return False
    shift = one.sheet.extent[0] - other.sheet.extent[0]
    return _lies_in(other.sheet, one.sheet, shift) and _lies_in(one.sheet, other.sheet, -shift)


def _holds(one: Part, other: Part) -> bool:
    """Return whether the second piece can be cut out of the first, which is cut already and still flat."""
    if not _formed_alike(one, other) or one.length < other.length - TAPE:
        return False
    ends = [a - b for a, b in zip(one.sheet.extent, other.sheet.extent, strict=True)]
    return any(_lies_in(other.sheet, one.sheet, shift) for shift in (*ends, sum(ends) / 2))


def _formed_alike(one: Part, other: Part) -> bool:
    """Return whether two pieces are of one metal, profile, form and hand."""
    return (
        alike(one.run.section, other.run.section)
        and abs(one.run.section.thickness - other.run.section.thickness) < 1e-6
        and abs(one.run.section.width - other.run.section.width) <= TAPE
        and (one.piece.hand or one.run.hand) == (other.piece.hand or other.run.hand)
    )


def _lies_in(inner: Sheet, outer: Sheet, shift: float) -> bool:
    """Return whether a sheet lies in another one, and no hole of that in it but where it wants one.

    Args:
        inner: The one.
        outer: The other.
        shift: How far the first is moved along the second, inches.
    """
    moved = affinity.translate(shapely.Polygon(inner.outline), shift)
    if not shapely.Polygon(outer.outline).buffer(TAPE).contains(moved):
        return False
    wanted = _middles(inner) + np.array([shift, 0.0])
    there = [hole for hole in _middles(outer) if moved.contains(shapely.Point(hole))]
    return all(bool((np.abs(wanted - hole).max(axis=1) <= TAPE).any()) for hole in there)


def _middles(sheet: Sheet) -> Array:
    """Return the middles of a sheet's holes, ``(n, 2) float, inches``."""
    return np.array([hole.mean(axis=0) for hole in sheet.holes]).reshape(-1, 2)


def _besides(old: Layout, new: Layout, to_cut: tuple[Part, ...], cut: set[str]) -> Takeoff:
    """Return what to buy beside what the old layout took."""
    before = take_off(old)
    there = [
        (trim, length)
        for trim in before.trim
        for bought in trim.plan.lengths
        for length in uncut(bought, cut, trim.plan.kerf)
    ]
    sections = {part.run.code: part.run.section for part in old.parts}

    def spare(part: Part) -> tuple[StockSpec, ...]:
        profile = part.run.section.profile
        suits = Counter(length for trim, length in there if alike(sections[trim.runs[0]], part.run.section))
        return tuple(
            StockSpec.model_construct(length=length, profile=profile, price=None, count=count, on_hand=True)
            for length, count in suits.items()
        )

    stock: Sequence[StockSpec] = new.scene.buy.stock
    for trim in before.cut:
        stock = without(stock, trim.profile, trim.plan)  # what the old layout took of it comes with ``spare``
    buy = new.scene.buy.model_copy(update={"stock": tuple(stock)})
    had = {cleat.mark: cleat.length for cleat in old.cleats}
    cleats = tuple(c for c in new.cleats if abs(had.get(c.mark, 0.0) - c.length) > TAPE)
    after = take_off(replace(new, parts=to_cut, cleats=cleats), buy, spare=spare)
    everything = take_off(new, buy)
    return replace(
        after,
        panels=_more(everything.panels, before.panels),
        closures=_more(everything.closures, before.closures),
        screws=replace(after.screws, needed=max(0, everything.screws.needed - before.screws.needed)),
        cleats=replace(after.cleats, needed=max(0, everything.cleats.needed - before.cleats.needed)),
    )


def uncut(bought: Bought, cut: set[str], kerf: float) -> Iterator[float]:
    """Yield what is whole of a length once some of its pieces are cut, inches: what lies between these."""
    begins = 0.0
    for piece in bought.cuts:
        if piece.mark in cut:
            if piece.start - begins > SCRAP:
                yield piece.start - begins
            begins = piece.start + piece.length + kerf
    if bought.length - begins > SCRAP:
        yield bought.length - begins


def _more(now: Sequence[Lengths], before: Sequence[Lengths]) -> tuple[Lengths, ...]:
    """Return what there is now and was not before, size by size."""
    had = {(one.what, one.width, one.length): one.count for one in before}
    more = [replace(one, count=one.count - had.get((one.what, one.width, one.length), 0)) for one in now]
    return tuple(one for one in more if one.count > 0)
