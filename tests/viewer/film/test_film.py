"""A film of a small shed: what it shows, how long it lasts, and what it refuses."""

from functools import cache
from itertools import pairwise
from pathlib import Path

import imageio_ffmpeg
import numpy as np
import pytest
from PIL import Image
from typer.testing import CliRunner

from trimwright.model.layout import Layout
from trimwright.model.message import message
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.sun import LOWEST
from trimwright.viewer.cli.commands import app_of
from trimwright.viewer.display.setting_steps import steps_of
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.display.view import CAUTION
from trimwright.viewer.film.caption import FilmCaption, strip_height, write_caption
from trimwright.viewer.film.frames import FIRST, HOLD, LAST, RATE, SLIDE, FilmPicture, _day, pictures_of
from trimwright.viewer.film.write import FilmError, check_kind, write_film

SCENE = """
title = "Bait store"
[roof]
form = "shed"
length = "7'"
width = "5'"
pitch = "4/12"
wall_height = "6'"
[trim]
high = false
[panels]
show = false
"""
SIZE = (320, 166)


@cache
def shed() -> Layout:
    return build(scene_from(SCENE))


@cache
def film() -> tuple[FilmPicture, ...]:
    return tuple(pictures_of(shed(), stage_of(shed()), SIZE))


def pixels(picture: FilmPicture) -> np.ndarray:
    """Return what is seen, without the caption."""
    return np.asarray(picture.image)[: SIZE[1] - strip_height(SIZE[1])].astype(int)


def test_each_step_slides_and_stays() -> None:
    steps = [step for step in steps_of(shed()) if step.kind == "trim"]
    assert len(steps) == 3
    each = [1 / RATE] * SLIDE + [HOLD]
    assert [picture.seconds for picture in film()] == [FIRST, *each * len(steps), LAST]


def test_a_piece_is_nearer_its_place_in_every_picture() -> None:
    pictures = [pixels(picture) for picture in film()[1 : SLIDE + 1]]
    before = pixels(film()[0])
    rows = [np.flatnonzero((np.abs(picture - before).max(axis=2) > 40).any(axis=1)) for picture in pictures]
    lowest = [row.max() for row in rows[2:]]
    assert lowest == sorted(lowest)
    assert lowest[0] < lowest[-1]


def test_what_is_set_stays_and_the_rest_of_the_picture_is_still() -> None:
    held = [pixels(picture) for picture in film() if picture.seconds == HOLD]
    for before, after in pairwise(held):
        changed = np.abs(after - before).max(axis=2) > 40
        assert 0 < changed.mean() < 0.2


def test_the_last_picture_has_the_finished_look() -> None:
    assert {picture.look for picture in film()[:-1]} == {"pieces"}
    assert film()[-1].look != "pieces"


def test_where_a_scene_has_a_sun_its_day_passes_from_the_east_to_the_west() -> None:
    scene = scene_from(SCENE + "[sun]\nlatitude = 44\nmonth = 3\nhour = 10\n")
    through = list(_day(scene))
    bearings = [one.sun.place[0] for one, _, _ in through[:-1] if one.sun]
    assert bearings == sorted(bearings) and bearings[0] < 120 < 240 < bearings[-1]
    assert through[-1][0].sun == scene.sun
    assert all(one.sun and one.sun.place[1] >= LOWEST for one, _, _ in through)


def test_a_named_view_fills_the_picture_alone() -> None:
    stage = stage_of(shed())
    first = next(pictures_of(shed(), stage, SIZE, stage.view("bare")))
    two = pixels(film()[0])[:, SIZE[0] // 2]
    assert (two > 250).all(), "a white line parts the two cameras"
    assert not (pixels(first)[:, SIZE[0] // 2] > 250).all()


def test_gif_lasts_as_long_as_its_pictures_and_keeps_their_colors(tmp_path: Path) -> None:
    write_film(film(), tmp_path / "shed.gif")
    with Image.open(tmp_path / "shed.gif") as gif:
        lasted = 0
        for number in range(gif.n_frames):
            gif.seek(number)
            lasted += gif.info["duration"]
        last = np.asarray(gif.convert("RGB")).astype(int)
    assert lasted == pytest.approx(1000 * sum(picture.seconds for picture in film()), abs=20)
    assert np.abs(last - np.asarray(film()[-1].image)).mean() < 6


@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")  # the reader's own open pipes
def test_mp4_has_every_picture(tmp_path: Path) -> None:
    write_film(film(), tmp_path / "shed.mp4")
    reader = imageio_ffmpeg.read_frames(str(tmp_path / "shed.mp4"))
    about = next(reader)
    frames = [np.frombuffer(frame, np.uint8).reshape(SIZE[1], SIZE[0], 3).astype(int) for frame in reader]
    assert about["source_size"] == SIZE
    assert len(frames) == sum(max(1, round(picture.seconds * RATE)) for picture in film())
    assert np.abs(frames[-1] - np.asarray(film()[-1].image)).mean() < 8


def test_long_captions_end_in_a_sign_that_there_is_more() -> None:
    picture = Image.new("RGB", (640, 333))
    write_caption(picture, FilmCaption("A title " * 40, "3 of 9", "R1-2", "words " * 80, 0.5, str(CAUTION)))
    strip = np.asarray(picture.convert("L"))[333 - strip_height(333) + 5 :]
    assert (strip[:, -6:] > 250).all(), "nothing runs out of the picture"
    assert (strip < 100).any()


@pytest.mark.parametrize("name", ["roof.avi", "roof", "roof.gif.txt"])
def test_other_kinds_of_file_are_refused_before_anything_is_drawn(name: str) -> None:
    with pytest.raises(FilmError, match=r"\.mp4 or a \.gif file"):
        check_kind(Path(name))


def test_without_its_library_an_mp4_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("trimwright.viewer.film.write.find_spec", lambda name: None)
    with pytest.raises(
        FilmError, match=r"pip install 'trimwright\[film\]', or give a name that ends in \.gif"
    ):
        check_kind(Path("roof.mp4"))


def test_command_writes_the_film_or_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "shed.toml").write_text(SCENE)
    target = tmp_path / "film.gif"
    ran = CliRunner().invoke(
        app_of(), ["film", str(tmp_path / "shed.toml"), "-o", str(target), "--width", "320"]
    )
    assert (ran.exit_code, ran.stdout.strip()) == (0, str(target))
    before = target.read_bytes()

    def broken(*_: object) -> None:
        raise FilmError(message("the disk is full"))

    monkeypatch.setattr("trimwright.viewer.film.write._write_gif", broken)
    ran = CliRunner().invoke(
        app_of(), ["film", str(tmp_path / "shed.toml"), "-o", str(target), "--width", "320"]
    )
    assert ran.exit_code == 2
    assert target.read_bytes() == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["film.gif", "shed.toml"]
