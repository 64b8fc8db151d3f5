"""Kept: a picture that would be drawn as it is already there is not drawn again.

Each picture of an album is sealed: it carries a digest of all that is drawn in it, down to the code that draws, and
of its own pixels. Whatever changes there, or in the file, breaks the seal.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import blake2b
from importlib.metadata import version
from pathlib import Path

import numpy as np

import trimwright.model

from ..display.daylight import sun_over
from ..display.stage import Stage
from ..display.view import ViewPoint
from .meshes import pieces_of

CODE = (Path(trimwright.model.__file__).parent, Path(__file__).parents[1])
"""The folders of the program."""

LIBRARIES = ("numpy", "numba", "llvmlite", "pillow", "shapely", "matplotlib")
"""What the program draws with; the letters come with the last."""

CHUNK = b"tEXttrimwright\0"
"""What a seal begins with: a text of a PNG file, by its name."""

END = struct.pack(">I", 0) + b"IEND" + struct.pack(">I", zlib.crc32(b"IEND"))
"""How every PNG file ends."""


def shown_in(stage: Stage, view: ViewPoint, size: tuple[int, int]) -> bytes:
    """Return a digest of all that is drawn in a picture.

    Args:
        stage: What is seen.
        view: From where, and what is written into it.
        size: Width and height, pixels.

    Raises:
        TypeError: Something in it is of a kind that no digest is known for.
    """
    scene, trims = stage.scene, [body for body in stage.bodies if body.trim]
    shown = (
        view,
        pieces_of(stage, view),
        {body.name: (body.trim, body.vertices if body.name in view.highlight else None) for body in trims},
        stage.pins if view.pins else (),
        stage.ground,
        sun_over(scene),
        (scene.title, scene.language, scene.tape),
        size,
        program(),
    )
    digest = blake2b(digest_size=32)
    for part in _said(shown):
        digest.update(part)
    return digest.digest()


@cache
def program() -> bytes:
    """Return a digest of all that the program is made of, and of what it draws with: so nothing is forgotten."""
    digest = blake2b(digest_size=32)
    for folder in CODE:
        for path in sorted(folder.rglob("*")):
            if path.suffix in (".py", ".po", ".toml"):
                digest.update(path.read_bytes())
    for library in LIBRARIES:
        digest.update(version(library).encode())
    return digest.digest()


def sealed(picture: bytes, shown: bytes) -> bytes:
    """Return a PNG file with the seal of what is shown in it and of its pixels."""
    body = picture.removesuffix(END)
    seal = CHUNK + blake2b(body, key=shown, digest_size=32).hexdigest().encode()
    return body + struct.pack(">I", len(seal) - 4) + seal + struct.pack(">I", zlib.crc32(seal)) + END


def kept(path: Path, shown: bytes) -> bytes | None:
    """Return the PNG file at ``path`` if it is whole, and shows just this; else None."""
    try:
        file = path.read_bytes()
    except OSError:
        return None
    return file if file == sealed(file.rpartition(CHUNK)[0][:-4] + END, shown) else None


def _said(thing: object) -> Iterator[bytes]:
    """Yield the bytes of a thing and of all that is in it: other bytes for other things, the same in every run."""
    yield f"{type(thing).__name__} ".encode()
    if isinstance(thing, np.ndarray):
        yield f"{thing.dtype.str} {thing.shape} ".encode()
        yield np.ascontiguousarray(thing).tobytes()
    elif isinstance(thing, Mapping):
        yield from _said(sorted(thing.items()))
    elif isinstance(thing, frozenset):
        yield from _said(sorted(thing))
    elif isinstance(thing, tuple | list):
        yield f"{len(thing)} ".encode()
        for part in thing:
            yield from _said(part)
    elif is_dataclass(thing):
        yield from _said([getattr(thing, field.name) for field in fields(thing)])
    elif thing is None or isinstance(thing, bool | int | float | str | bytes | np.generic):
        yield f"{thing!r} ".encode()
    else:
        raise TypeError(f"no digest of a {type(thing).__name__}")
