"""Houses as open city models have them: listed as what they are, laid out with trim all round, and nothing wrong."""

from collections import Counter
from pathlib import Path

import pytest
from city_houses import DRAWN, city_house
from solids import depths

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.viewer.report.buildings import buildings_in

READY = 0.85
"""So many of the houses are to be laid out with trim on every edge but steps, at the least."""

HOUSES = 330


def flaws(folder: Path, number: int) -> list[str] | None:
    """Return what is wrong with a house, by a rule or by manifold3d; None where it is not ready."""
    _, text = city_house(number)
    file = folder / "house.city.json"
    file.write_text(text, encoding="utf-8")
    (listed,) = buildings_in(file)
    if not listed.ready:
        return None
    roof = {"form": "faces", "file": file.name, "building": listed.building}
    layout = build(scene_of({"title": "House", "roof": roof}, folder=folder))
    errors = [str(found.message) for found in check(layout) if found.severity == "error"]
    return errors + [str(depth) for depth in depths(layout)]


@pytest.mark.parametrize("number", range(len(DRAWN)), ids=list(DRAWN))
def test_a_house_of_each_kind_is_sound(tmp_path: Path, number: int) -> None:
    assert flaws(tmp_path, number) == []


@pytest.mark.parametrize("number", [21, 65])
def test_bell_cast_breaks_at_hips_and_a_valley(tmp_path: Path, number: int) -> None:
    """Panels below hook no apron, and closures under two aprons end at the hip between them."""
    assert flaws(tmp_path, number) == []


@pytest.mark.sweep
def test_three_hundred_houses(tmp_path: Path) -> None:
    ready, wrong = Counter[str](), {}
    for number in range(HOUSES):
        found = flaws(tmp_path, number)
        kind, _ = city_house(number)
        ready[kind] += found is not None
        if found:
            wrong[number, kind] = found
    print(f"\n{ready.total()} of {HOUSES} are ready, {dict(ready)}")
    assert wrong == {}
    assert ready.total() >= READY * HOUSES
