"""Write the generated pages of ``docs/``: run ``python -m trimwright.viewer.docs`` in the repository's folder.

With ``--no-pictures`` the gallery's pictures stay as they are.
"""

from __future__ import annotations

import sys
from pathlib import Path

from .gallery import draw_pictures, gallery_page, pictures_of, scenes_in
from .profiles import profile_pages
from .rule_pages import main as write_rule_pages
from .scene_format import scene_format_page

DOCS = Path("docs")


def pages(root: Path) -> dict[str, str]:
    """Return the text of every page and drawing made here, by its path inside ``docs/``."""
    return {
        "scene-format.md": scene_format_page(),
        "gallery.md": gallery_page(root),
        **profile_pages(),
    }


def main(arguments: list[str]) -> None:
    """Write pages, drawings and pictures; take away those of profiles and views that are gone."""
    root = Path.cwd()
    docs = root / DOCS
    texts = pages(root)
    for name, text in texts.items():
        (docs / name).parent.mkdir(parents=True, exist_ok=True)
        (docs / name).write_text(text, encoding="utf-8")
    write_rule_pages([str(docs / "rules")])
    pictures = {name for path in scenes_in(root) for name in pictures_of(path).values()}
    for old in [*docs.glob("profiles/*.svg"), *docs.glob("gallery/*.png")]:
        if old.relative_to(docs).as_posix() not in {*texts, *pictures}:
            old.unlink()
    if "--no-pictures" not in arguments:
        for path in scenes_in(root):
            draw_pictures(path, docs)


if __name__ == "__main__":
    main(sys.argv[1:])
