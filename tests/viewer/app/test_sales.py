"""What is handed in for a customer without a browser: photographs, taps and lists, good and bad."""

import io
import json
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from loops import finish
from PIL import Image
from starlette.requests import Request
from starlette.responses import Response
from workspaces import Told

from trimwright.viewer.app.sales import SALES
from trimwright.viewer.app.workspace import Workspace

ANSWERS = {(path, methods[0]): answer for path, answer, methods in SALES}
Ask = Callable[..., Response]


@pytest.fixture
def ask(workspace: Workspace) -> Ask:
    """Return what asks one address of the workspace."""

    def ask(path: str, body: bytes | None = None, **query: str) -> Response:
        method = "GET" if body is None else "PUT"
        words = "&".join(f"{name}={value}" for name, value in query.items())
        scope = {"type": "http", "method": method, "path": "/", "headers": [], "query_string": words.encode()}

        async def receive() -> dict[str, Any]:
            return {"type": "http.request", "body": body or b"", "more_body": False}

        return finish(ANSWERS[path, method](workspace, Request(scope, receive)))  # type: ignore[arg-type]

    return ask


def jpeg(size: tuple[int, int] = (800, 600)) -> bytes:
    file = io.BytesIO()
    exif = Image.Exif()
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8769)[0xA405] = 26
    Image.new("RGB", size, (90, 120, 150)).save(file, "JPEG", exif=exif)
    return file.getvalue()


def told(answer: Response) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(bytes(answer.body))
    return found


def test_a_photograph_is_kept_without_where_it_was_taken(
    ask: Ask, workspace: Workspace, tmp_path: Path
) -> None:
    assert ask("photo", jpeg(), name="..%2F..%2Fhouse.JPG").status_code == 200
    photo = tomllib.loads(workspace.text)["photo"]
    assert photo == {"file": "house.jpg", "focal": 26.0}
    with Image.open(tmp_path / "house.jpg") as kept:
        assert not kept.getexif()
    assert not [
        file for folder in tmp_path.parents[:2] for file in folder.iterdir() if file.suffix.lower() == ".jpg"
    ]
    assert told(ask("photo"))["size"] == [800, 600]


def test_another_photograph_takes_nothing_of_somebody_elses_away(ask: Ask, tmp_path: Path) -> None:
    (tmp_path / "house.jpg").write_bytes(b"mine")
    ask("photo", jpeg(), name="house.jpg")
    assert (tmp_path / "house.jpg").read_bytes() == b"mine"
    assert (tmp_path / "house-2.jpg").exists()


@pytest.mark.parametrize("raw", [b"", b"GIF89a nothing", b"\xff\xd8\xff" + b"x" * 100])
def test_what_is_no_photograph_is_refused(ask: Ask, workspace: Workspace, raw: bytes) -> None:
    before = workspace.text
    answer = ask("photo", raw, name="house.jpg")
    assert answer.status_code == 422 and "picture" in told(answer)["problem"]
    assert workspace.text == before


@pytest.mark.parametrize(
    "raw",
    [b"[", b"{}", b'[{"corner": [], "at": [1, 2]}]', b'[{"corner": ["ridge"], "at": [1e400, 2]}]', b"[1]"],
)
def test_what_are_no_taps_is_refused(ask: Ask, raw: bytes) -> None:
    ask("photo", jpeg(), name="house.jpg")
    answer = ask("photo/points", raw)
    assert answer.status_code == 422 and "no taps" in told(answer)["problem"]


def test_taps_that_give_no_camera_say_why(ask: Ask) -> None:
    ask("photo", jpeg(), name="house.jpg")
    one = told(ask("photo"))["corners"][0]["corner"]
    ask("photo/points", json.dumps([{"corner": one, "at": [10, 20]}]).encode())
    found = told(ask("photo"))
    assert found["points"] == [{"corner": one, "at": [10.0, 20.0]}]
    assert found["solved"] is None and "tap" in found["problem"]


def test_taps_without_a_photograph_are_refused(ask: Ask) -> None:
    assert "no photograph" in told(ask("photo/points", b"[]"))["problem"]
    assert ask("photo/picture").status_code == 409


def test_a_price_list_is_read_before_it_is_kept(ask: Ask, workspace: Workspace, tmp_path: Path) -> None:
    wrong = ask("shop", b"item,unit,price\ntrim,ft,cheap\n", what="prices", name="list.csv")
    assert wrong.status_code == 422 and "cheap" in told(wrong)["problem"]
    assert not (tmp_path / "list.csv").exists()
    assert "csv" in told(ask("shop", b"x", what="prices", name="list.exe"))["problem"]
    assert ask("shop", b"item,unit,price\ntrim,ft,2\n", what="prices", name="list.csv").status_code == 200
    assert tomllib.loads(workspace.text)["shop"]["prices"] == "list.csv"


def test_an_offer_without_a_list_has_no_sums(ask: Ask, told: Told) -> None:
    found = json.loads(bytes(ask("offer").body))
    assert found["listed"] is None and found["choices"][0]["lines"] == []


def test_the_light_is_matched_by_hand(ask: Ask, workspace: Workspace) -> None:
    ask("photo", jpeg(), name="house.jpg")
    assert ask("photo/sun", b"", **{"from": "230", "height": "40"}).status_code == 200
    assert tomllib.loads(workspace.text)["photo"]["sun"] == [230.0, 40.0]
    for wrong in ({"from": "230"}, {"from": "nan", "height": "40"}, {"from": "9", "height": "99"}):
        assert ask("photo/sun", b"", **wrong).status_code == 422
    assert tomllib.loads(workspace.text)["photo"]["sun"] == [230.0, 40.0]


def painted(size: tuple[int, int], white: bool = True) -> bytes:
    file = io.BytesIO()
    mask = Image.new("RGBA", size, (0, 0, 0, 255))
    if white:
        mask.paste((255, 255, 255, 255), (0, 0, size[0] // 4, size[1]))
    mask.save(file, "PNG")
    return file.getvalue()


def test_a_painted_mask_is_kept_beside_the_scene_and_taken_away_when_nothing_is_painted(
    ask: Ask, workspace: Workspace, tmp_path: Path
) -> None:
    assert ask("photo/front", painted((800, 600))).status_code == 422, "there is no photograph yet"
    ask("photo", jpeg(), name="house.jpg")
    assert ask("photo/front").status_code == 409
    assert ask("photo/front", painted((400, 300))).status_code == 200
    assert tomllib.loads(workspace.text)["photo"]["front"] == "house-front.png"
    with Image.open(tmp_path / "house-front.png") as mask:
        assert (mask.mode, mask.size) == ("L", (800, 600))
        assert (mask.getpixel((10, 300)), mask.getpixel((700, 300))) == (255, 0)
    with Image.open(io.BytesIO(bytes(ask("photo/front").body))) as again:
        assert again.getpixel((10, 300)) == 255
    assert told(ask("photo"))["front"] == "house-front.png"
    ask("photo/front", painted((800, 600), white=False))
    assert "front" not in tomllib.loads(workspace.text)["photo"]
    assert ask("photo/front", b"no picture").status_code == 422
