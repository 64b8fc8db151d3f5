"""What rules propose: changes of a scene that may remove what they find. A stage of its own tries them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from ..edge_kinds import KINDS
from ..layout import Layout
from ..profiles.section import Leg
from ..roof.record import Edge
from ..runs import Run
from ..scene.draft import Change, Changes
from ..scene.schema import Scene
from ..scene.trim import PlacedPiece, Start

LOW_SEAM = 1.0
"""Height of the lowest standing seams in common use, inches: common practice, no source."""

SHARES = (1 / 4, 1 / 2, 3 / 4)
"""How much of the metal that a run has to spare comes off its first piece: its joints move along with that."""


def said_at(run: Run, scene: Scene, key: str) -> tuple[str, str, str]:
    """Return where a scene says ``key`` of a run: for the run alone, or for its kind of edge."""
    own = scene.run.get(run.name)
    if own is not None and key in own.model_fields_set:
        return ("run", run.name, key)
    return ("trim", run.trim, key)


def for_run(run: Run, scene: Scene, key: str, value: Any) -> tuple[Changes, ...]:
    """Return the ways to give a run ``value``: where the scene says it, then for this run alone."""
    places = dict.fromkeys((said_at(run, scene, key), ("run", run.name, key)))
    return tuple((Change(place, value),) for place in places)


def started(run: Run, scene: Scene, starts: Iterable[Start]) -> tuple[Changes, ...]:
    """Return the ways to start a run otherwise, for all trim of its kind first; a hand-placed run has none."""
    if run.spec.pieces is not None:
        return ()
    ways = [for_run(run, scene, "start", start) for start in starts if start != run.spec.start]
    return tuple(way[level] for level in (0, 1) for way in ways if len(way) > level)


def with_pieces(run: Run, scene: Scene, pieces: Iterable[PlacedPiece]) -> tuple[Changes, ...]:
    """Return the ways to give a run other pieces by hand, each length up to the next mark of the tape.

    Where screws are placed by hand on its pieces, these come to stand elsewhere: the second way leaves them out.
    """
    change = Change(said_at(run, scene, "pieces"), [_written(piece, scene) for piece in pieces])
    return _with_its_screws(run, scene, change)


def with_lengths(run: Run, scene: Scene, added: Mapping[int, float]) -> tuple[Changes, ...]:
    """Return the ways to make hand-placed pieces longer.

    Args:
        run: The run; its pieces are placed by hand.
        scene: The scene.
        added: To which piece, by number from 1, how much, inches; less than nothing shortens it.
    """
    longer = [
        piece.model_copy(update={"length": piece.length + added.get(number, 0.0)})
        for number, piece in enumerate(run.spec.pieces or (), 1)
    ]
    return with_pieces(run, scene, longer)


def unsaid(run: Run, scene: Scene, key: str, number: int) -> tuple[Changes, ...]:
    """Return the change that leaves ``key`` of a hand-placed piece, by number from 1, to the layout."""
    pieces = run.spec.pieces
    if pieces is None or getattr(pieces[number - 1], key) is None:
        return ()
    free = [
        piece.model_copy(update={key: None}) if place == number else piece
        for place, piece in enumerate(pieces, 1)
    ]
    return with_pieces(run, scene, free)


def not_over(run: Run, scene: Scene, other: Run) -> tuple[Changes, ...]:
    """Return the ways to have a run no longer lie over another one because the scene says so."""
    kept = [name for name in run.spec.over if name not in (other.name, other.trim)]
    return for_run(run, scene, "over", kept or None) if len(kept) < len(run.spec.over) else ()


def laid_out_again(run: Run, scene: Scene) -> Changes:
    """Return the change that leaves the lengths of a run to the layout, and with them its screws."""
    return _with_its_screws(run, scene, Change(said_at(run, scene, "pieces"), None))[-1]


def _with_its_screws(run: Run, scene: Scene, change: Change) -> tuple[Changes, ...]:
    """Return a change, and, where screws of the run are placed by hand, the same with these left to the layout."""
    marks = [mark for mark in scene.screws.placed if mark.rpartition("-")[0] == run.code]
    return ((change,), (change, *screws_left_out(marks))) if marks else ((change,),)


def with_screws(layout: Layout, mark: str, marks: Iterable[float]) -> tuple[Changes, ...]:
    """Return the ways to place a piece's screws: at ``marks`` from its low end, or where the layout puts them."""
    if mark not in layout.scene.screws.placed:
        return ()
    show = layout.scene.tape
    typed = list(dict.fromkeys(show.typed(at) for at in sorted(marks)))
    by_hand = ((Change(("screws", "placed", mark), typed),),) if typed else ()
    return (*by_hand, screws_left_out([mark]))


def screws_left_out(marks: Iterable[str]) -> Changes:
    """Return the change that leaves the screws of pieces to the layout."""
    return tuple(Change(("screws", "placed", mark), None) for mark in marks)


def left_out(scene: Scene, *keys: str) -> Iterator[Change]:
    """Yield a change for each of these keys of ``[screws]`` that the scene sets: the rule set's number holds again."""
    for key in keys:
        if getattr(scene.screws, key) is not None:
            yield Change(("screws", key), None)


def wider(run: Run, scene: Scene, leg: Leg, more: float) -> tuple[Changes, ...]:
    """Return the ways to make a leg wider: in the scene's own profile, or by the usual profile of the edge.

    Args:
        run: The run.
        scene: The scene.
        leg: The leg.
        more: What it lacks, inches.
    """
    ways: list[Changes] = []
    profile = scene.profile.get(run.spec.profile)
    if profile is not None:
        at = [one.name for one in profile.legs].index(leg.name)
        width = scene.tape.typed(scene.tape.up(profile.legs[at].width + more))
        ways.append((Change(("profile", run.spec.profile, "legs", at, "width"), width),))
    return (*ways, *usual_profiles([run], scene))


def given_trim(scene: Scene, edge: Edge) -> Change:
    """Return the change that takes away what leaves an edge bare."""
    return Change(("run", edge.name) if edge.name in scene.run else ("trim", edge.kind), None)


def usual_profiles(runs: Iterable[Run], scene: Scene) -> tuple[Changes, ...]:
    """Return the change that gives runs the usual profile of their edge, where the scene gives any another.

    A profile of the scene's own that no trim has any more is left out with it.
    """
    others = [run for run in runs if run.spec.profile != KINDS[run.trim].profile]
    keys = dict.fromkeys(said_at(run, scene, "profile") for run in others)
    kept = {
        spec.profile
        for table, specs in (("trim", scene.trim), ("run", scene.run))
        for name, spec in specs.items()
        if spec is not None and (table, name, "profile") not in keys
    }
    idle = dict.fromkeys(run.spec.profile for run in others if run.spec.profile in scene.profile)
    changes = [Change(key, None) for key in keys]
    changes += [Change(("profile", name), None) for name in idle if name not in kept]
    return (tuple(changes),) if changes else ()


def seams_elsewhere(layout: Layout) -> tuple[Changes, ...]:
    """Return the ways to move the seams: where the layout puts them, then as they are begun otherwise."""
    panels = layout.scene.panels
    free = (Change(("panels", "offset"), None),) if panels.offset else ()
    ways = [free] if free else []
    ways += [
        (*free, Change(("panels", "start"), start))
        for start in ("clear", "equal", "left")
        if start != panels.start
    ]
    return tuple(ways)


def _written(piece: PlacedPiece, scene: Scene) -> Any:
    """Return a hand-placed piece as a scene has it: its length alone, or a table where it says more."""
    length = scene.tape.typed(scene.tape.up(piece.length))
    more = {name: getattr(piece, name) for name in ("hand", "lies") if getattr(piece, name) is not None}
    return {"length": length, **more} if more else length


def lower_seams(layout: Layout) -> tuple[Changes, ...]:
    """Return the change to seams of an inch, the lowest in common use, where they are higher."""
    return ((Change(("panels", "seam"), "1 in"),),) if layout.scene.panels.seam > LOW_SEAM else ()


def stock_up_to(scene: Scene, most: float) -> tuple[Changes, ...]:
    """Return the change that does without the stock lengths that are longer than ``most``, inches.

    Where all are, they are sheared to that.
    """
    stock = scene.metal.stock
    short = [length for length in stock if length <= most] or [scene.tape.down(most)]
    if len(short) == len(stock) and stock[-1] <= most:
        return ()
    return ((Change(("metal", "stock"), [scene.tape.typed(length) for length in short]),),)


def joints_moved(layout: Layout, run: Run) -> tuple[Changes, ...]:
    """Return the ways to cut the first piece of a run back, so that every joint of it moves."""
    key = ("run", run.name, "pieces")
    ways = joints_elsewhere(layout, run.name)
    return tuple(_with_its_screws(run, layout.scene, Change(key, lengths))[-1] for lengths in ways)


def lengths_by_hand(layout: Layout, run: Run, lengths: Sequence[float]) -> tuple[Changes, ...]:
    """Return the change that gives a run these lengths, inches, and leaves its screws to the layout."""
    typed = [layout.scene.tape.typed(layout.scene.tape.up(length)) for length in lengths]
    change = Change(("run", run.name, "pieces"), typed)
    return _with_its_screws(run, layout.scene, change)[-1:]


def joints_elsewhere(layout: Layout, name: str) -> Iterator[list[str]]:
    """Yield lengths for a run, as typed in a scene: its first piece cut back, so that every joint moves."""
    parts, show = layout.parts_of(name), layout.scene.tape
    stock, metal = layout.scene.metal.stock[-1], sum(part.length for part in parts)
    spare = len(parts) * stock - metal
    for share in SHARES:
        first = show.down(stock - share * spare)
        last = show.up(metal - first - (len(parts) - 2) * stock)
        if min(first, last) > parts[0].run.spec.lap + show.mark and max(first, last) <= stock:
            lengths = [first, *[stock] * (len(parts) - 2), last]
            yield [show.typed(length) for length in lengths]
