"""The page that shows every scene: its pictures, and the command that makes each of them."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import read_scene

SCENES = Path("scenes")

SHOWN: dict[str, tuple[str, ...]] = {
    "boat-shed": ("street", "bare", "corner eave-rake R1-1", "screws R1"),
    "net-loft": ("bare", "short piece R1-2"),
    "ice-house": ("finish", "corner peak R2-1 apart"),
    "harbor-office": ("finish", "corner hip-foot H1-1", "corner hip-head C1-2 apart"),
    "bakehouse": ("finish", "corner hip-head H4-2"),
    "oar-store": ("finish", "corner high-rake T1-3"),
    "sail-loft": ("street", "corner lap R1-2 apart"),
    "rope-store": ("finish", "bare", "corner valley-foot V1-1", "corner valley-head V1-3"),
    "chandlery": ("finish", "bare"),
    "salt-house": ("finish", "corner hip-head C3-2", "corner valley-head V2-2 apart"),
    "pilot-station": ("finish", "corner hip-head C2-3", "findings"),
    "fish-market": ("finish", "corner inside-corner E2-1"),
    "signal-house": ("finish", "corner outside-corner E8-1", "corner ridge-at-a-slope C2-1"),
    "net-barn": ("street", "corner break-end B1-3", "corner rake-bend R2-1"),
    "weigh-house": ("finish", "corner porch-corner E1-1", "corner porch-corner E1-1 apart"),
    "cooperage": ("finish", "corner peak R2-2"),
    "slip-shed": ("findings",),
}
"""Views that are shown of each scene; the first one leads."""

WIDTHS = (1120, 1040, 960, 880, 800, 720, 640)
"""Of a picture, pixels: the largest that keeps the file small."""

LARGEST = 260_000
"""Bytes of a picture's file."""

INTRO = """# Gallery

Every scene in [`scenes/`](../scenes), with some of its pictures. The first command of a scene does the whole job:
pictures, report, 3D model and lists, in `out/`. The others make one picture each. The scenes are set in Skerry Sound,
a village that does not exist.

"""


def gallery_page(root: Path) -> str:
    """Return the page's text, from the scenes under ``root``."""
    return (INTRO + "\n".join(_chapter(path) for path in scenes_in(root))).rstrip("\n") + "\n"


def scenes_in(root: Path) -> list[Path]:
    """Return the scenes under ``root``, in the order in which they are shown."""
    paths = {path.stem: path for path in sorted((root / SCENES).glob("*.toml"))}
    return [paths.pop(name) for name in SHOWN if name in paths] + list(paths.values())


def pictures_of(path: Path) -> dict[str, str]:
    """Return the views that are shown of a scene, each with its picture's path inside ``docs/``."""
    return {view: f"gallery/{path.stem}-{view.replace(' ', '-')}.png" for view in SHOWN.get(path.stem, ())}


def draw_pictures(path: Path, docs: Path) -> None:
    """Draw the pictures that are shown of a scene into ``docs``.

    Raises:
        ViewError: The scene has no such view.
    """
    from ..display.stage import stage_of
    from ..render.picture import drawn

    layout = build(read_scene(path))
    stage = stage_of(layout, check(layout))
    for view, name in pictures_of(path).items():
        target = docs / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(_small(drawn(stage, stage.view(view))))


def _small(picture: Image.Image) -> bytes:
    """Return a picture as PNG, as wide as a small file allows."""
    picture = picture.convert("RGB")
    for wide in WIDTHS:
        buffer = io.BytesIO()
        high = round(picture.height * wide / picture.width)
        picture.resize((wide, high), Image.Resampling.LANCZOS).save(buffer, "PNG", optimize=True)
        if buffer.tell() < LARGEST:
            break
    return buffer.getvalue()


def _chapter(path: Path) -> str:
    """Return a scene's part of the page: its title, its own first words, pictures and commands."""
    scene = f"{SCENES.as_posix()}/{path.name}"
    lines = [f"## {read_scene(path).title}", "", _words(path), "", f"[`{scene}`](../{scene})", ""]
    lines += ["```sh", f"trimwright preview {scene}", "```", ""]
    for view, name in pictures_of(path).items():
        lines += [f"![{read_scene(path).title}: {view}]({name})", "", "```sh"]
        lines += [f'trimwright picture {scene} --view "{view}"', "```", ""]
    return "\n".join(lines)


def _words(path: Path) -> str:
    """Return the comment that a scene begins with."""
    words = []
    for line in path.read_text(encoding="utf-8").splitlines():
        if not line.startswith("#"):
            break
        words.append(line.lstrip("# "))
    return " ".join(words)
