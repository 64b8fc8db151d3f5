"""``trimwright buy``: lists on the terminal and in a folder, the proof or how far it got, or one clear line."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]


def test_lists_are_printed_and_written(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("buy", scene("boat-shed"), "-o", "shop", "--nest")
    assert result.exit_code == 0
    for words in (
        "trim to buy",
        "hook rake",
        "panels",
        "panel by panel",
        "whole",
        "screws",
        "sealant",
        "proven: no plan does better",
        "R1-2",
        "lengths to order are rounded up; panel by panel they are to the nearest mark",
    ):
        assert words in " ".join(result.stdout.split())
    names = {path.name for path in (here / "shop").iterdir()}
    assert {
        "what-to-buy.xlsx",
        "cutting.csv",
        "cutting-diagram.svg",
        "cutting-diagram.png",
        "nested",
    } <= names
    assert (here / "shop" / "nested" / "hook-eave-1.dxf").exists()


def test_a_search_without_time_says_how_far_it_got(run: Run, scene: SceneOf) -> None:
    result = run("buy", scene("harbor-office"), "--seconds", "0")
    assert result.exit_code == 0
    assert "stopped before the proof: at most" in result.stdout


def test_money_without_prices_is_refused(run: Run, here: Path, scene: SceneOf) -> None:
    result = run("buy", scene("boat-shed"), "--least", "money")
    assert result.exit_code == 2
    assert "no price" in result.stderr
    assert not (here / "out").exists()


@pytest.mark.parametrize("arguments", [("--least", "time"), ("--seconds", "-1"), ("--seconds", "soon")])
def test_nonsense_is_refused(run: Run, scene: SceneOf, arguments: tuple[str, ...]) -> None:
    assert run("buy", scene("boat-shed"), *arguments).exit_code == 2
