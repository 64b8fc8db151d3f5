"""How a roof looks, as the viewer in a browser takes it: its colors and coats, and the day and the land round it."""

from __future__ import annotations

from typing import Any

from trimwright.model.scene.dressed import dressed
from trimwright.model.scene.schema import Scene

from ..display.coats import GLASS, HEADS, PAINT, bare_coat, coat_of, coated, gutter_coat
from ..display.color_math import hexed, rgb
from ..display.colors import BUILT, CUT, PRIMER, SCREW
from ..display.daylight import daylights, sun_over
from ..display.landscape import BLUER, CLEARER, NEARER, TALL, WAVES
from ..display.paints import PAINTS, bare_ages, is_bare
from ..display.perforated import FINE, OPEN, ROWS, SHOWS
from ..words.speaker import Speaker

Values = dict[str, Any]


def look_of(scene: Scene, say: Speaker) -> Values:
    """Return the finish of a scene and of its looks, what lies round it, where north is and where the sun."""
    return {
        "finish": finish_of(scene, say),
        "looks": [{"name": look.name, "finish": finish_of(dressed(scene, look), say)} for look in scene.look],
        "outdoors": outdoors(),
        "sun": scene.north,
        "sunAt": sun_over(scene),
    }


def finish_of(scene: Scene, say: Speaker) -> Values:
    """Return the colors and coats of a scene, and what else can be tried."""
    colors, of = scene.colors, scene.metal.kind if is_bare(scene) else None
    return {
        "trim": coated(colors.trim, coat_of(scene, rgb(colors.trim)), of),
        "panels": coated(colors.panels, coat_of(scene, rgb(colors.panels)), of),
        "walls": colors.walls,
        "gutters": coated(colors.gutters, gutter_coat(scene)) if colors.gutters else None,
        "paints": [
            *(
                {"name": one.name, **coated(one.color, PAINT[one.coat])}
                for one in scene.shop.color
                if one.coat in PAINT
            ),
            *({"name": say(name), **coated(color, PAINT["satin"])} for name, color in PAINTS),
        ],
        "metals": [
            {"name": say(name), **coated(color, bare_coat(metal.kind, rgb(color)), metal.kind)}
            for metal, name, color in bare_ages()
        ],
    }


def outdoors() -> Values:
    """Return the daylight and the landscape, as pictures have them."""
    return {
        "days": daylights(),
        "tall": TALL,
        "waves": WAVES,
        "fades": (BLUER, CLEARER, NEARER),
        "sheet": {"back": hexed(PRIMER), "cut": hexed(CUT)},
        "perforated": {"shows": SHOWS, "rows": ROWS, "open": OPEN, "fine": FINE},
        "built": {kind: hexed(color) for kind, color in BUILT.items()},
        "glass": coated(hexed(BUILT["glass"]), GLASS, "glass"),
        "screws": coated(hexed(SCREW), HEADS, "screws"),
    }
