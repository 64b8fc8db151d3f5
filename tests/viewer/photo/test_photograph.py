from pathlib import Path

import numpy as np
import pytest
from photographs import SIZE
from PIL import Image

from trimwright.viewer.photo.camera import Camera
from trimwright.viewer.photo.photograph import (
    EXIF,
    FILM,
    FILM_FOCAL,
    PhotoError,
    read_photograph,
    straightened,
)

ORIENTATION, PLACE = 0x0112, 0x8825


def taken(path: Path, size: tuple[int, int], **tags: object) -> Path:
    """Write a photograph as a telephone does: on its side, with its lens and where it was taken."""
    image = Image.new("RGB", size, (200, 180, 160))
    image.paste((255, 0, 0), (0, 0, size[0] // 4, size[1] // 4))
    exif = image.getexif()
    exif[ORIENTATION] = tags.get("orientation", 1)
    exif.get_ifd(EXIF)[FILM_FOCAL] = tags.get("focal", 26)
    exif.get_ifd(PLACE)[2] = (48.0, 12.0, 30.0)
    image.save(path, exif=exif)
    return path


def test_a_photograph_is_read_upright_with_its_focal_length(tmp_path: Path) -> None:
    """Orientation 6: the picture's left side is its top (EXIF 2.32); 26 of 43.27 mm is 0.6 of the diagonal."""
    photograph = read_photograph(taken(tmp_path / "a.jpg", (800, 600), orientation=6))
    assert photograph.size == (600, 800)
    red = photograph.pixels[50, -50].astype(int)
    assert red[0] > 200 and red[1] < 90
    assert photograph.focal(None) == pytest.approx(26 / FILM * 1000)
    assert photograph.focal(52) == pytest.approx(52 / FILM * 1000)


def test_a_large_one_is_made_smaller_and_says_by_how_much(tmp_path: Path) -> None:
    photograph = read_photograph(taken(tmp_path / "b.jpg", (4800, 3600)))
    assert photograph.size == (2400, 1800) and photograph.scale == 0.5


def test_what_is_no_photograph_is_refused(tmp_path: Path) -> None:
    tmp_path.joinpath("c.jpg").write_bytes(b"\xff\xd8\xff no picture")
    for name in ("c.jpg", "nowhere.jpg"):
        with pytest.raises(PhotoError, match=name):
            read_photograph(tmp_path / name)


def test_a_bent_picture_is_straightened_where_the_camera_says() -> None:
    """A dot painted where the bent lens sees a point is, straightened, where a straight lens sees it."""
    turn = np.array([[1.0, 0, 0], [0, 0, -1], [0, 1, 0]])
    point = np.array([[300.0, 1000, 200]])
    bent, straight = (Camera(SIZE, 1200.0, turn, np.zeros(3), bend) for bend in (0.05, 0.0))
    pixels = np.zeros((SIZE[1], SIZE[0], 3), dtype=np.uint8)
    x, y = bent.project(point)[0].round().astype(int)
    pixels[y - 3 : y + 4, x - 3 : x + 4] = 255
    found = np.argwhere(straightened(pixels, bent)[..., 0] > 128).mean(axis=0)[::-1]
    assert np.linalg.norm(found - straight.project(point)[0]) < 1.5
