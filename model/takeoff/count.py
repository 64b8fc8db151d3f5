"""From a layout to what to buy for it."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from ..edge_kinds import KINDS
from ..errors import Problem, SceneError
from ..layout import Layout, Part
from ..message import Listed, Message, message
from ..metals import METAL_WORDS, METALS
from ..panels.cleats import Cleat
from ..panels.lay import whole_width
from ..profiles.catalogue import catalogue, no_profile
from ..profiles.section import Section
from ..scene.buy import BuySpec, StockSpec
from ..tolerances import POINT, TAPE
from .cutting import cut_from, unhurried
from .facts import CLOSURE_BEADS, CORNER_BEADS, DENSITIES, FACTS, HEM_CLEATS, LAP_BEADS
from .plan import Demand, Plan, Stock
from .record import Coil, Lengths, Sealant, Supply, Takeoff, Trim

COILED = ("panel", "closure", "perforated closure")
"""What comes out of coils, in the order in which it is listed."""

CLEAT = "cleat"
"""Stock that is for continuous cleats says so by this name, in place of a profile's."""

CLEATS = message("continuous cleats")

ALIKE = math.radians(1.0)
"""Bends this close are one: less than a hand brake holds."""


Spare = Callable[[Part], tuple[StockSpec, ...]]
"""Gives lengths on hand, counted, that suit a piece by its form."""


def nothing_spare(_: Part) -> tuple[StockSpec, ...]:
    """Return no lengths."""
    return ()


def take_off(
    layout: Layout,
    buy: BuySpec | None = None,
    seconds_left: Callable[[], float] = unhurried,
    spare: Spare = nothing_spare,
) -> Takeoff:
    """Return what to buy for ``layout``.

    A piece longer than all stock is bought at its own length, at the dearest stock's price by the inch.

    Args:
        layout: The layout.
        buy: Prices, stock on hand and what to save; what the scene says when left out.
        seconds_left: How much longer the search for cutting plans may take; asked again and again.
        spare: Lengths that are there beside those of the scene.

    Raises:
        SceneError: ``buy`` names an unknown profile, or a price is missing that its objective needs.
    """
    buy = buy or layout.scene.buy
    _check_profiles(layout, buy)
    on_pans = _pan_cleats(layout)
    fastened = [len(cleat.screws) for cleat in layout.cleats]
    rivets = sum(
        len(cleat.screws) for cleat in layout.cleats if KINDS[layout.run(cleat.at).trim].panels == "on"
    )
    trim, left = _trim(layout, buy, seconds_left, spare)
    return Takeoff(
        trim=trim,
        strips=_strips(layout, buy.model_copy(update={"stock": left}), seconds_left),
        panels=_counted(("panel", panel.width, panel.length) for panel in layout.panels),
        closures=_counted((closure.kind, 0.0, closure.length) for closure in layout.closures),
        coils=tuple(_coils(layout)),
        screws=Supply(
            message("{metal} screws", metal=METAL_WORDS[layout.scene.screws.kind]), len(layout.screws)
        ),
        cleats=Supply(
            message("cleats for the panels' seams"), sum(len(panel.clips) for panel in layout.panels)
        ),
        pan_cleats=Supply(message("cleats for the hems of valleys"), on_pans),
        cleat_screws=Supply(message("screws for continuous cleats"), sum(fastened) - rivets),
        rivets=Supply(message("rivets for the cleats of valleys"), rivets),
        sealant=_sealant(layout),
        facts=(*FACTS, *([HEM_CLEATS] if on_pans else []), DENSITIES[layout.scene.metal.kind]),
    )


def _pan_cleats(layout: Layout) -> int:
    """Return how many cleats hold the hems of all pans: two hems a pan, one at each end, none too far apart."""
    pans = [part for part in layout.parts if KINDS[part.run.trim].cleated]
    return sum(2 * (math.ceil(pan.length / HEM_CLEATS.value - POINT) + 1) for pan in pans)


def _check_profiles(layout: Layout, buy: BuySpec) -> None:
    """Raise a problem for each stock of a profile that does not exist."""
    known = [*catalogue(), *layout.scene.profile, CLEAT]
    problems = [
        Problem(no_profile(stock.profile, known), ("buy", "stock", number, "profile"))
        for number, stock in enumerate(buy.stock)
        if stock.profile is not None and stock.profile not in known
    ]
    if problems:
        raise SceneError(*problems)


def _trim(
    layout: Layout, buy: BuySpec, seconds_left: Callable[[], float], spare: Spare
) -> tuple[tuple[Trim, ...], list[StockSpec]]:
    """Return the trim by how it is formed, in the order of the runs, and the stock that is left."""
    groups: list[list[Part]] = []
    for part in layout.parts:
        group = next((group for group in groups if alike(group[0].run.section, part.run.section)), None)
        if group is None:
            groups.append([part])
        else:
            group.append(part)
    ways = Counter(group[0].run.section.profile for group in groups)
    left = list(buy.stock)
    found: list[Trim] = []
    for group in groups:
        section = group[0].run.section
        runs = tuple(dict.fromkeys(part.run.code for part in group))
        alone = ways[section.profile] == 1
        label = message("{profile}", profile=section.profile) if alone else _label(section.profile, runs)
        own = spare(group[0])
        lengths = {part.mark: part.length for part in group}
        stocked = buy.model_copy(update={"stock": (*own, *left)})
        found.append(_cut(label, section, runs, lengths, layout, stocked, seconds_left))
        left = without(left, section.profile, found[-1].plan, own)
    return tuple(found), left


def _strips(layout: Layout, buy: BuySpec, seconds_left: Callable[[], float]) -> tuple[Trim, ...]:
    """Return the continuous cleats by how they are formed, in the order of the runs."""
    groups: dict[tuple[int, float], list[Cleat]] = {}
    for cleat in layout.cleats:
        section = cleat.sheet.section
        groups.setdefault((len(section.bends), round(section.width, 6)), []).append(cleat)
    found: list[Trim] = []
    for group in groups.values():
        runs = tuple(dict.fromkeys(layout.run(cleat.at).code for cleat in group))
        label = CLEATS if len(groups) == 1 else _label(CLEATS, runs)
        lengths = {cleat.mark: cleat.length for cleat in group}
        found.append(_cut(label, group[0].sheet.section, runs, lengths, layout, buy, seconds_left))
        buy = buy.model_copy(update={"stock": without(buy.stock, CLEAT, found[-1].plan)})
    return tuple(found)


def _cut(
    label: Message,
    section: Section,
    runs: tuple[str, ...],
    lengths: Mapping[str, float],
    layout: Layout,
    buy: BuySpec,
    seconds_left: Callable[[], float],
) -> Trim:
    """Return what is formed alike with the plan of what it is cut from; ``lengths`` in inches by mark."""
    metal = layout.scene.metal
    plan = _plan(label, section.profile, lengths, layout, buy, seconds_left)
    return Trim(
        label=label,
        profile=section.profile,
        color=layout.scene.colors.trim,
        runs=runs,
        width=section.width,
        bends=tuple(bend.angle for bend in section.bends),
        weight=plan.taken * section.width * section.thickness * DENSITIES[metal.kind].value,
        plan=plan,
        least_offcut=layout.limits.number("short-end-piece"),
    )


def alike(one: Section, other: Section) -> bool:
    """Tell whether two sections are formed alike, so that pieces of both come out of one length."""
    return (
        one.profile == other.profile
        and len(one.bends) == len(other.bends)
        and all(abs(a.angle - b.angle) <= ALIKE for a, b in zip(one.bends, other.bends, strict=True))
    )


def _label(profile: str | Message, runs: Sequence[str]) -> Message:
    """Return a profile's name with the codes of its runs, in a few words."""
    if len(runs) <= 6:
        return message("{profile} ({runs})", profile=profile, runs=Listed(tuple(runs), "comma"))
    return message(
        "{profile} ({runs} and {count} more)",
        profile=profile,
        runs=Listed(tuple(runs[:5]), "comma"),
        count=len(runs) - 5,
    )


def _plan(
    label: Message,
    profile: str,
    lengths: Mapping[str, float],
    layout: Layout,
    buy: BuySpec,
    seconds_left: Callable[[], float],
) -> Plan:
    """Return the cutting plan of what is formed alike; ``lengths`` in inches by mark."""
    own = [stock for stock in buy.stock if stock.profile in (None, profile)]
    stock = _stock(layout.scene.metal.stock, own)
    longest = max(each.length for each in stock)
    demands = [
        Demand(mark, longest if longest < length <= longest + TAPE else length)
        for mark, length in lengths.items()
    ]
    rate = max((each.price / each.length for each in stock if each.price is not None), default=None)
    special = Counter(demand.length for demand in demands if demand.length > longest + POINT)
    stock += [
        Stock(length, price=None if rate is None else round(rate * length, 2), count=count)
        for length, count in special.items()
    ]
    return cut_from(
        label,
        demands,
        stock,
        kerf=buy.kerf,
        objective=buy.objective,
        seconds_left=seconds_left,
    )


def _stock(metal: Sequence[float], own: Sequence[StockSpec]) -> list[Stock]:
    """Return the metal's lengths and those of ``own``; what is said about one profile wins over what is for all."""
    endless = {length: Stock(length) for length in metal}
    for stock in sorted(own, key=lambda stock: stock.profile is not None):
        if stock.count is None:
            same = next((length for length in endless if abs(length - stock.length) <= POINT), stock.length)
            endless[same] = Stock(same, stock.price)
    counted = [
        Stock(stock.length, stock.price, stock.count, stock.on_hand)
        for stock in own
        if stock.count is not None
    ]
    return [*endless.values(), *counted]


def without(
    stock: Sequence[StockSpec], profile: str, plan: Plan, own: Sequence[StockSpec] = ()
) -> list[StockSpec]:
    """Return ``stock`` less the counted lengths that ``plan`` takes beside its ``own``, which go first."""
    taken = Counter((bought.length, bought.from_hand) for bought in plan.lengths)
    for each in own:
        taken[each.length, True] -= min(each.count or 0, taken[each.length, True])
    left = []
    for each in stock:
        key = (each.length, each.on_hand)
        if each.count is None or each.profile not in (None, profile):
            left.append(each)
            continue
        used = min(each.count, taken[key])
        taken[key] -= used
        if used < each.count:
            left.append(each.model_copy(update={"count": each.count - used}))
    return left


def _coils(layout: Layout) -> Iterator[Coil]:
    """Yield what panels and closures take of coils, the widest first of each."""
    metal = layout.scene.metal
    whole = _up(whole_width(layout.scene))
    taken: defaultdict[tuple[str, float], float] = defaultdict(float)
    for panel in layout.panels:
        taken["panel", max(_up(panel.width), whole)] += panel.length
    for closure in layout.closures:
        if not closure.foam:
            what = "perforated closure" if closure.open_share else "closure"
            taken[what, _up(closure.sheet.section.width)] += closure.length
    for (what, width), length in sorted(taken.items(), key=lambda one: (COILED.index(one[0][0]), -one[0][1])):
        weight = length * width * metal.thickness * METALS[metal.kind].density
        yield Coil(what, width, length, weight)


def _counted(items: Iterable[tuple[str, float, float]]) -> tuple[Lengths, ...]:
    """Return how many there are of each kind, width and length, the longest first; both up to the next 1/16."""
    counts = Counter((what, _up(width), _up(length)) for what, width, length in items)
    order = sorted(counts, key=lambda key: (key[0], -key[1], -key[2]))
    return tuple(Lengths(what, width, length, counts[what, width, length]) for what, width, length in order)


def _up(length: float) -> float:
    """Return a length up to the next 1/16 in; noise below a tape's reach does not count."""
    return math.ceil((length - POINT) * 16) / 16


def _sealant(layout: Layout) -> Sealant:
    """Return the beads of a layout; across sealed laps and corners they lie on the piece that lies over."""
    parts, closures = layout.parts, sum(closure.length for closure in layout.closures)
    laps = [p.run.section.width for p in parts for end in p.ends.laps if end.lies == "over" and end.sealed]
    corners = [p.run.section.width for p in parts for end in p.ends.corners if end.lies == "over"]
    return Sealant(
        sum(laps) * LAP_BEADS.value,
        sum(corners) * CORNER_BEADS.value,
        closures * CLOSURE_BEADS.value,
        sum(one.bead for one in layout.sealed),
    )
