"""Every number of many layouts, in sums: kept so that a change to any of them is seen; reset by a flag, and looked at.

This proves nothing right. It notices what other tests, which look at one thing each, do not look at.
"""

import tomllib
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any, TypeAlias

import pytest
from faulty_roofs import faulty
from odd_forms import odd_forms
from ordinary_outlines import ordinary_outline
from ordinary_roofs import ordinary
from summed import read, summed, written
from zoo import NAMES, OTHERS, layout

from trimwright.model.checks.run import check
from trimwright.model.errors import TrimwrightError
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.takeoff.count import take_off

Named: TypeAlias = Iterator[tuple[str, Any]]


def _zoo() -> Named:
    for name in (*NAMES, *OTHERS):
        yield from _told(layout(name))
        yield "takeoff", take_off(layout(name))


def _told(there: Layout) -> Named:
    yield "layout", there
    yield "sealed", there.sealed
    yield "vents", there.vents
    yield "sureness", there.sureness
    yield "findings", check(there)


def _faults() -> Iterator[dict[str, Any]]:
    """Yield the small scenes in which each rule finds something, and the one that has a rake at a valley."""
    cases = Path(__file__, "..", "checks", "cases").resolve()
    for path in (
        *sorted(cases.glob("*/fail-*.toml")),
        cases / "valley-without-drip/pass-at-a-flush-gable.toml",
    ):
        tables = tomllib.loads(path.read_text(encoding="utf-8"))
        yield {name: table for name, table in tables.items() if name != "expect"}


def _laid_out(scenes: Iterable[dict[str, Any]]) -> Named:
    """Yield what each scene comes to, or what is said of it where it is refused."""
    for tables in scenes:
        try:
            yield from _told(build(scene_of(tables)))
        except TrimwrightError as error:
            yield "refused", [str(problem) for problem in error.problems]


STEEP_BESIDE_FLAT = 44
"""A hip of 14 in 12 with ends of 2 in 12: its feet have three flaps, and a wing far longer than the other."""

KEPT: dict[str, Callable[[], Named]] = {
    "ordinary-roofs": lambda: _laid_out(map(ordinary, (*range(12), STEEP_BESIDE_FLAT))),
    "scenes": _zoo,
    "ordinary-outlines": lambda: _laid_out(map(ordinary_outline, range(6, 17))),
    "odd-forms": lambda: _laid_out(map(odd_forms, range(24))),
    "faulty-roofs": lambda: _laid_out(map(faulty, range(12))),
    "faults": lambda: _laid_out(_faults()),
}


@pytest.mark.parametrize("name", KEPT)
def test_no_sum_changes_unseen(name: str, kept: Callable[[str, str], str]) -> None:
    now = summed(KEPT[name]())
    before = read(kept(f"sums-of-{name}.csv", written(now)))
    changed = {one for one in now.keys() | before.keys() if one not in now or one not in before}
    changed |= {one for one in now.keys() & before.keys() if not now[one].close(before[one])}
    assert not changed, (
        f"{len(changed)} differ, such as {sorted(changed)[:9]}: if it is meant, --reset-golden"
    )
