"""Colors to try on a roof that is shown in one look only: those that it may well be ordered in."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.message import Message, message
from trimwright.model.metals import METALS
from trimwright.model.scene.look import LookSpec
from trimwright.model.scene.schema import Scene

from ..display.coats import PAINT, coat_name
from ..display.paints import PAINTS, ages_of, is_bare
from ..words.speaker import Speaker


def tries_of(scene: Scene, say: Speaker) -> Iterator[LookSpec]:
    """Yield looks of one color for trim and panels: of a bare metal its ages, of paint the shop's chart, else our own.

    Args:
        scene: The roof as it is planned; its own color is left out.
        say: In whose words the colors are named.
    """
    for name, color, coat in _colors(scene):
        planned = scene.colors.trim == scene.colors.panels == color and coat_name(scene) == coat
        if not planned:
            yield LookSpec(name=say(name), colors={"trim": color, "panels": color, "coat": coat})


def _colors(scene: Scene) -> Iterator[tuple[Message, str, str]]:
    """Yield the name, the color and the coat of each."""
    chart = [one for one in scene.shop.color if one.coat in PAINT]
    if is_bare(scene):
        yield from ((name, color, "bare") for name, color in ages_of(METALS[scene.metal.kind]))
    elif chart:
        yield from ((message("{name}", name=one.name), one.color, one.coat) for one in chart)
    else:
        yield from ((name, color, coat_name(scene)) for name, color in PAINTS)
