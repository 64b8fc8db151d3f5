from collections.abc import Callable
from pathlib import Path

from click.testing import Result
from photographs import from_the_front_left
from PIL import Image
from zoo import layout

Run = Callable[..., Result]


def scene_text(path: Path, slip: float) -> str:
    """Return a scene with six taps seen by a camera before the left gable, the last one off by ``slip`` pixels."""
    roof, taps = layout("sail-loft").roof, from_the_front_left("sail-loft").taps
    taps[-1, 0] += slip
    points = ""
    for number, at in enumerate(taps):
        names = ", ".join(f'"{edge.name}"' for edge in roof.edges if number in edge.vertices)
        points += f"[[photo.point]]\ncorner = [{names}]\nat = [{at[0]:.2f}, {at[1]:.2f}]\n"
    return path.read_text(encoding="utf-8") + '\n[photo]\nfile = "house.png"\n' + points


def test_the_roof_is_drawn_beside_the_photograph_as_it_was(
    run: Run, here: Path, scene: Callable[[str], Path]
) -> None:
    Image.new("RGB", (1600, 1200), (120, 140, 160)).save("house.png")
    here.joinpath("shown.toml").write_text(scene_text(scene("sail-loft"), 0.0), encoding="utf-8")
    done = run("photo", "shown.toml", "--beside", "-o", "shown.png")
    assert done.exit_code == 0, done.output
    assert "agree to 0.0 pixels" in done.stdout
    with Image.open("shown.png") as picture:
        assert picture.size == (3200, 1200)


def test_a_slip_is_named(run: Run, here: Path, scene: Callable[[str], Path]) -> None:
    Image.new("RGB", (1600, 1200)).save("house.png")
    here.joinpath("shown.toml").write_text(scene_text(scene("sail-loft"), 80.0), encoding="utf-8")
    told = run("photo", "shown.toml").stdout
    assert told.count("left out") == 1


def test_a_scene_without_a_photograph_says_what_to_write(run: Run, scene: Callable[[str], Path]) -> None:
    done = run("photo", scene("sail-loft"))
    assert done.exit_code == 2
    assert "photo: the scene names no photograph" in done.stderr
