"""What a salesperson is handed: the offer, the customer's page, the roof on the photograph; and the files for them.

What draws pictures is large: it is imported when the first of them is asked for.
"""

from __future__ import annotations

import asyncio
import io
import json
import re
import tomllib
from collections.abc import Awaitable, Callable, Sequence
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import quote

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response

from trimwright.model.errors import TrimwrightError
from trimwright.model.message import Listed, message
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.schema import Scene

from ..offer.as_json import numbers_of
from ..offer.blank_list import blank_list
from ..offer.choice import choices_of
from ..offer.price_list import list_for, read_price_list
from ..page.shapes import to_meters
from ..photo.corners import corner_names
from ..photo.photograph import LARGEST, mask_for, read_photograph
from ..photo.placed import Placed, place
from ..words.speaker import Speaker, speaker_of
from .folder import FolderError
from .photo_text import NO_PHOTO, with_photo, with_points
from .results import built
from .scene_text import EditError, value_at, with_value
from .workspace import Workspace

Values = dict[str, Any]
SalesAnswer = Callable[[Workspace, Request], Awaitable[Response]]

NO_STORE = {"Cache-Control": "no-store"}
PRICES_LARGEST = 5_000_000
"""Bytes of a price list."""

ENDINGS = {"prices": ("csv", "xlsx"), "logo": ("png", "jpg", "jpeg")}
"""What a file for the shop may be."""

MASK_LARGEST = 20_000_000
"""Bytes of a painted mask."""

QUALITY = 90
"""Of a photograph as it is kept, and of what is shown of it."""


async def _offer(workspace: Workspace, _: Request) -> Response:
    """Return what the roof comes to in each look, as the command line has it."""

    def numbers() -> Values:
        scene, folder = _scene(workspace), workspace.folder.path
        found: Values = json.loads(numbers_of(tuple(choices_of(scene, list_for(scene, folder)))))
        return {**found, "listed": scene.shop.prices}

    return await _told(workspace, numbers)


async def _offer_pdf(workspace: Workspace, _: Request) -> Response:
    def pdf() -> bytes:
        from ..offer.writing import offer_pdf

        scene, folder = _scene(workspace), workspace.folder.path
        return offer_pdf(tuple(choices_of(scene, list_for(scene, folder))), folder, date.today().isoformat())

    return await _file(workspace, pdf, "application/pdf", f"{_called(workspace)}-offer.pdf")


async def _price_list(workspace: Workspace, _: Request) -> Response:
    """Return a price list to fill in: a row for all that this roof takes, in each of its looks."""

    def rows() -> bytes:
        return blank_list(choices_of(_scene(workspace), None)).encode("utf-8-sig")

    return await _file(workspace, rows, "text/csv", f"{workspace.name}-prices.csv")


async def _customer(workspace: Workspace, request: Request) -> Response:
    """Return the customer's page to be saved, or with ``?shown`` to be looked at."""

    def page() -> bytes:
        from ..customer.pictures import shown_page

        return shown_page(_scene(workspace), workspace.folder.path).encode("utf-8")

    name = "" if "shown" in request.query_params else f"{_called(workspace)}-for-customer.html"
    return await _file(workspace, page, "text/html", name)


def _called(workspace: Workspace) -> str:
    """Return what files for the customer are called by: the scene's name, or its title where nobody has saved it."""
    title = value_at(tomllib.loads(workspace.text), ("title",))
    if workspace.saved is not None or not isinstance(title, str):
        return workspace.name
    return re.sub(r"[^\w .'-]+", "-", title)[:80].strip(" .-") or workspace.name


async def _photo(workspace: Workspace, _: Request) -> Response:
    """Return the corners that may be tapped, those that are, and how well they agree."""
    return await _told(workspace, lambda: _photo_told(workspace))


def _photo_told(workspace: Workspace) -> Values:
    scene = _scene(workspace)
    roof, say, spec = built(scene).roof, speaker_of(scene).alone(), scene.photo
    corners = [
        {"corner": list(names), "says": _meet(names, say), "point": to_meters(roof.vertices[number]).tolist()}
        for number, names in corner_names(roof)
    ]
    told: Values = {
        "corners": corners,
        "file": spec and spec.file,
        "front": spec and spec.front,
        "points": [],
        "solved": None,
        "problem": "",
    }
    if spec is None:
        return told
    photograph = read_photograph(workspace.folder.path / spec.file)
    told["size"] = [round(side / photograph.scale) for side in photograph.size]
    told["points"] = [{"corner": list(point.corner), "at": list(point.at)} for point in spec.point]
    try:
        placed = _placed(scene, workspace)
    except TrimwrightError as error:
        return {**told, "problem": workspace.told(error)}
    return {**told, "solved": _misfit(placed, say)}


def _misfit(placed: Placed, say: Speaker) -> Values:
    """Return how well the taps agree, in words and by each of them, in pixels of the photograph."""
    chosen, scale = placed.chosen, placed.photograph.scale
    words = say("The taps agree to {misfit} pixels.", misfit=f"{chosen.misfit / scale:.1f}")
    return {
        "says": words,
        "misses": [round(float(miss) / scale, 1) for miss in chosen.misses],
        "wrong": chosen.wrong,
        "cameras": len(placed.solved),
        "choose": placed.spec.choose,
    }


def _meet(names: Sequence[str], say: Speaker) -> str:
    if len(names) == 1:
        return say("the end of {edge}", edge=names[0])
    return say("where {edges} meet", edges=Listed(tuple(names)))


async def _photo_picture(workspace: Workspace, request: Request) -> Response:
    """Return the photograph as it is kept, straightened, or with the roof in it: ``?which=kept``, before or after.

    ``?look=2`` has the roof in the second look of the scene.
    """
    which = request.query_params.get("which", "kept")

    def picture() -> bytes:
        from ..customer.pictures import layout_in
        from ..photo.drawn import before_and_after

        scene = _scene(workspace)
        if scene.photo is None:
            raise EditError(NO_PHOTO)
        folder = workspace.folder.path
        if which == "kept":
            return _jpeg(read_photograph(folder / scene.photo.file).pixels)
        layout, look = built(scene), request.query_params.get("look", "0")
        placed, number = _placed(scene, workspace), int(look) if look.isdecimal() else 0
        if 0 < number <= len(scene.look):
            layout = layout_in(scene.look[number - 1], layout)
        before, after = before_and_after(placed, layout, folder)
        return _jpeg(before if which == "before" else after)

    return await _file(workspace, picture, "image/jpeg")


async def _take_photo(workspace: Workspace, request: Request) -> Response:
    """Take in a photograph: upright, small enough, without its place data, beside the scenes."""

    def take(raw: bytes, name: str) -> str:
        with TemporaryDirectory() as drafts:
            draft = Path(drafts, "photograph")
            draft.write_bytes(raw)
            photograph = read_photograph(draft)
        kept = workspace.folder.attach(f"{Path(name).stem or 'house'}.jpg", _jpeg(photograph.pixels))
        return with_photo(workspace.text, kept, photograph.film_focal)

    return await _taken(workspace, request, LARGEST, take)


async def _take_points(workspace: Workspace, request: Request) -> Response:
    """Take in the taps, in the place of those before."""

    def take(raw: bytes, _: str) -> str:
        return with_points(workspace.text, raw)

    return await _taken(workspace, request, 100_000, take)


async def _front(workspace: Workspace, _: Request) -> Response:
    """Return the painted mask of what stands in front of the house, as large as the photograph."""

    def mask() -> bytes:
        photo, folder = _scene(workspace).photo, workspace.folder.path
        if photo is None or photo.front is None:
            raise EditError(message("nothing is painted yet"))
        return _png(mask_for(folder / photo.front, read_photograph(folder / photo.file).size))

    return await _file(workspace, mask, "image/png")


async def _take_front(workspace: Workspace, request: Request) -> Response:
    """Take in a painted mask: white where something stands in front, black elsewhere; all black takes it away."""

    def take(raw: bytes, _: str) -> str:
        scene = _scene(workspace)
        if scene.photo is None:
            raise EditError(NO_PHOTO)
        photograph = read_photograph(workspace.folder.path / scene.photo.file)
        with TemporaryDirectory() as drafts:
            draft = Path(drafts, "front.png")
            draft.write_bytes(raw)
            mask = mask_for(draft, photograph.size)
        if not mask.any():
            return with_value(workspace.text, ("photo", "front"), None)
        name = f"{Path(scene.photo.file).stem}-front.png"
        return with_value(workspace.text, ("photo", "front"), workspace.folder.attach(name, _png(mask)))

    return await _taken(workspace, request, MASK_LARGEST, take)


async def _take_sun(workspace: Workspace, request: Request) -> Response:
    """Take in where the light of the photograph comes from: ``?from=230&height=40``, degrees."""

    def take(_: bytes, __: str) -> str:
        try:
            sun = [round(float(request.query_params[name]), 1) for name in ("from", "height")]
        except (KeyError, ValueError):
            raise EditError(message("give two angles, such as 230 and 40")) from None
        text = with_value(workspace.text, ("photo", "sun"), sun)
        scene_from(text, "", workspace.folder.path)
        return text

    return await _taken(workspace, request, 0, take)


async def _take_shop_file(workspace: Workspace, request: Request) -> Response:
    """Take in a price list or a logo: ``?what=prices`` or ``?what=logo``."""
    what = request.query_params.get("what", "")

    def take(raw: bytes, name: str) -> str:
        ending = name.rpartition(".")[2].lower()
        if ending not in ENDINGS.get(what, ()):
            known = Listed(tuple(ENDINGS.get(what, ("csv",))), "or")
            raise FolderError(message("give a file that ends in {endings}", endings=known))
        if what == "prices":
            with TemporaryDirectory() as drafts:
                draft = Path(drafts, name)
                draft.write_bytes(raw)
                read_price_list(draft)
        return with_value(workspace.text, ("shop", what), workspace.folder.attach(name, raw))

    return await _taken(workspace, request, PRICES_LARGEST, take)


def _scene(workspace: Workspace) -> Scene:
    return scene_from(workspace.text, "", workspace.folder.path)


def _placed(scene: Scene, workspace: Workspace) -> Placed:
    if scene.photo is None:
        raise EditError(NO_PHOTO)
    return place(built(scene), scene.photo, workspace.folder.path)


async def _told(workspace: Workspace, work: Callable[[], Values]) -> Response:
    """Return what is worked out as JSON, or the problem that keeps it from that."""
    try:
        return JSONResponse(await asyncio.to_thread(work), headers=NO_STORE)
    except (TrimwrightError, OSError) as error:
        return JSONResponse({"problem": _why(workspace, error)}, 409, headers=NO_STORE)


async def _file(workspace: Workspace, work: Callable[[], bytes], kind: str, name: str = "") -> Response:
    """Return what is worked out as a file, under a name where it is to be saved."""
    headers = {
        **NO_STORE,
        **({"Content-Disposition": f"attachment; filename*=UTF-8''{quote(name)}"} if name else {}),
    }
    try:
        return Response(await asyncio.to_thread(work), media_type=kind, headers=headers)
    except (TrimwrightError, OSError) as error:
        return PlainTextResponse(_why(workspace, error), 409, headers=NO_STORE)


async def _taken(
    workspace: Workspace, request: Request, most: int, take: Callable[[bytes, str], str]
) -> Response:
    """Take in what a browser sends, and put the text that comes of it on the workspace."""
    raw = bytearray()
    async for chunk in request.stream():
        raw += chunk
        if len(raw) > most:
            told = message("more than {most} bytes; give a smaller file", most=most)
            return JSONResponse({"problem": workspace.told(FolderError(told))}, 413)
    name = Path(request.query_params.get("name", "")[:120]).name
    try:
        workspace.replace(await asyncio.to_thread(take, bytes(raw), name))
    except (TrimwrightError, OSError) as error:
        return JSONResponse({"problem": _why(workspace, error)}, 422)
    await workspace.act({})
    return JSONResponse({})


def _why(workspace: Workspace, error: TrimwrightError | OSError) -> str:
    if isinstance(error, TrimwrightError):
        return workspace.told(error)
    return workspace.told(
        FolderError(message("cannot be read or written: {reason}", reason=error.strerror or str(error)))
    )


def _jpeg(pixels: NDArray[np.uint8]) -> bytes:
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "JPEG", quality=QUALITY)
    return file.getvalue()


def _png(pixels: NDArray[np.uint8]) -> bytes:
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "PNG", optimize=True)
    return file.getvalue()


SALES: tuple[tuple[str, SalesAnswer, list[str]], ...] = (
    ("offer", _offer, ["GET"]),
    ("offer.pdf", _offer_pdf, ["GET"]),
    ("price-list.csv", _price_list, ["GET"]),
    ("customer", _customer, ["GET"]),
    ("photo", _photo, ["GET"]),
    ("photo", _take_photo, ["PUT"]),
    ("photo/points", _take_points, ["PUT"]),
    ("photo/front", _front, ["GET"]),
    ("photo/front", _take_front, ["PUT"]),
    ("photo/sun", _take_sun, ["PUT"]),
    ("photo/picture", _photo_picture, ["GET"]),
    ("shop", _take_shop_file, ["PUT"]),
)
"""Addresses after that of the workspace, and what answers there."""
