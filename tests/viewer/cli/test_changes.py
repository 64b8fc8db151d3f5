"""``changes``: told, as JSON, and drawn with the changed metal marked."""

import json
from collections.abc import Callable
from pathlib import Path

from click.testing import Result
from PIL import Image

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]


def even(scene: Path, here: Path) -> Path:
    path = here / "even.toml"
    text = scene.read_text(encoding="utf-8").replace('start = "low"', 'start = "even"')
    path.write_text(f'cut = ["R1-1", "R1-2", "E1-1"]\n{text}', encoding="utf-8")
    return path


def test_what_is_told_and_drawn(run: Run, scene: SceneOf, here: Path) -> None:
    old = scene("net-loft")
    result = run("changes", old, even(old, here), "-o", here / "changed.png")
    assert result.exit_code == 0
    assert result.stdout.splitlines()[:3] == [
        "Stay good: E1-1.",
        "Can be cut shorter, if still flat: R1-1.",
        "Nothing can be made of: R1-2.",
    ]
    colors = Image.open(here / "changed.png").convert("RGB").getcolors(10_000_000)
    assert sum(count for count, (red, green, blue) in colors if red > 150 and green < 110 and blue < 70) > 500


def test_a_house_a_foot_longer_is_told_in_under_ten_lines(run: Run, scene: SceneOf, here: Path) -> None:
    """Its hips make panels of many sizes, and every run of it may change."""
    old = scene("harbor-office")
    text = old.read_text(encoding="utf-8")
    new = here / "longer.toml"
    new.write_text(
        'cut = ["H1-1", "H1-2", "E1-1"]\n' + text.replace('width = "24\'"', 'width = "25\'"'),
        encoding="utf-8",
    )
    assert 'width = "25\'"' in new.read_text(encoding="utf-8")
    lines = run("changes", old, new, "-o", here / "changed.png").stdout.splitlines()
    assert 4 <= len(lines) < 10
    assert sum("Buy besides" in line for line in lines) <= 3
    assert any(" cleats for the panels' seams." in line for line in lines)
    assert any("--json lists all" in line for line in lines) and any(" to E1-" in line for line in lines)


def test_as_json_it_draws_nothing(run: Run, scene: SceneOf, here: Path) -> None:
    old = scene("net-loft")
    told = json.loads(run("changes", old, even(old, here), "--json").stdout)
    assert told["good"] == [{"cut": "E1-1", "as": "E1-1"}] and told["recut"] == ["R1-2"]
    assert all(one["profile"] == "hook rake" for one in told["buy"]["lengths"])
    assert [path.name for path in here.iterdir()] == ["even.toml"]


def test_nothing_changed_is_said_and_not_drawn(run: Run, scene: SceneOf, here: Path) -> None:
    result = run("changes", scene("net-loft"), scene("net-loft"))
    assert "No piece of trim has changed." in result.stdout and "Nothing to buy besides." in result.stdout
    assert list(here.iterdir()) == []


def test_a_mark_that_never_was_is_told_in_one_line(run: Run, scene: SceneOf, here: Path) -> None:
    path = even(scene("net-loft"), here)
    path.write_text(path.read_text(encoding="utf-8").replace("R1-1", "Q9-9"), encoding="utf-8")
    result = run("changes", scene("net-loft"), path)
    assert result.exit_code == 2 and result.stderr.startswith("even.toml: cut: Q9-9")
