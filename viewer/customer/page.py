"""The customer's page: the finished roof in each of its looks, in one HTML file, with nothing of the workshop on it.

All that is read stands in the file as it is; a script puts the roof that can be turned over it. Where the script or the
drawing is missing, the pictures are left.
"""

from __future__ import annotations

import base64
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from html import escape
from typing import Any

from trimwright.model.layout import Layout
from trimwright.model.message import Expanse, Fine, Length, Listed, Message, message
from trimwright.model.metals import METALS

from ..display.camera import looking_at
from ..display.paints import color_name, is_bare
from ..display.stage import Stage, stage_of
from ..display.trim_looks import LOOKS
from ..display.view import ViewPoint
from ..display.whole_roof import outline_of
from ..page.browser_words import browser_words
from ..page.finish import finish_of, outdoors
from ..page.page import SCRIPTS, html_page
from ..page.payload import seen_of
from ..page.viewpoints import viewpoint_of
from ..words.key_names import GUTTERS, LOCKS
from ..words.speaker import Speaker, speaker_of

Values = dict[str, Any]

VIEWS = ("street", "finish")
"""Where a customer looks from first."""

BEHIND = (-0.9, 1.0, 0.62)
"""The way to the eye of one who looks from behind."""

FOLDERS = ("common", "seen", "tools", "customer")
"""Of the scripts: those that this page needs."""

CAUTIONS = (
    message("Keep off the roof; metal is slippery when it is wet, and its edges are sharp."),
    message("Colors on a screen and on metal differ: choose from a sample in daylight."),
    message("Wind and structure are decided by the local code, the metal's maker and licensed practice."),
)
"""What a customer is told."""


@dataclass(frozen=True, slots=True, eq=False)
class ShownLook:
    """One look.

    Attributes:
        name: What the salesperson calls it; empty for the scene as it is.
        layout: The roof so.
        still: JPEG picture of it; None for a color that may be tried where the roof is drawn.
        after: JPEG picture of it on the photograph; None without one.
    """

    name: str
    layout: Layout
    still: bytes | None = None
    after: bytes | None = None


def customer_page_of(
    looks: Sequence[ShownLook], before: bytes | None = None, logo: tuple[str, bytes] | None = None
) -> str:
    """Return the page as text.

    Args:
        looks: The scene as it is, in each of its looks, and in colors to try.
        before: JPEG of the photograph as it was; None without one.
        logo: Media type and bytes of the shop's logo; None without one.

    Raises:
        PageError: the drawing library is missing.
    """
    layout = looks[0].layout
    say = speaker_of(layout.scene).alone()
    data = {**_data(looks, say), "words": browser_words(say.language, SCRIPTS)}
    seen = escape(say("The roof"))
    body = "\n".join(
        (
            '<main class="tw cu" id="customer">',
            _head(layout, logo, say),
            f'<section class="cu-view" aria-label="{seen}"></section>',
            _looks(looks, say),
            _photo(looks, before, say) if before is not None else "",
            _made_of(layout, say),
            _foot(layout, say),
            "</main>",
        )
    )
    return html_page(
        layout.scene.title,
        say.language.code,
        ("frame.css", "customer.css", "before_after.css"),
        FOLDERS,
        body,
        data,
        "trimwright/customer/start.js",
    )


def letter(number: int) -> str:
    """Return the letter of a look: A for the first."""
    return chr(ord("A") + number)


def name_of(look: ShownLook, say: Speaker) -> str:
    """Return what a look is called."""
    return look.name or say("As planned")


def _data(looks: Sequence[ShownLook], say: Speaker) -> Values:
    """Return what is drawn: each shape of the roof once, and the finish of every look."""
    roofs: list[Values] = []
    shapes: list[Layout] = []
    told = []
    for number, look in enumerate(looks):
        base = next((place for place, one in enumerate(shapes) if one.parts is look.layout.parts), None)
        if base is None:
            base = len(shapes)
            shapes.append(look.layout)
            roofs.append(_roof(stage_of(look.layout), say))
        told.append(
            {
                "letter": letter(number) if look.still else "",
                "name": name_of(look, say),
                "roof": base,
                "finish": finish_of(look.layout.scene, say),
            }
        )
    return {"title": looks[0].layout.scene.title, "looks": told, "roofs": roofs, "outdoors": outdoors()}


def _roof(stage: Stage, say: Speaker) -> Values:
    """Return a roof as the viewer takes it, without anything that is written on it."""
    seen = seen_of(stage)
    back = ViewPoint(
        "back",
        message("From behind"),
        (looking_at(outline_of(stage.layout), BEHIND, margin=1.2),),
        stage.viewpoints["finish"].shows,
        "finish",
        outdoors=True,
    )
    views = [replace(stage.viewpoints[name], labels=()) for name in VIEWS]
    kept = ("shapes", "screws", "panelsShown", "holes", "apart", "sunAt")
    return {
        **{name: seen[name] for name in kept},
        "bodies": [{**body, "step": 0} for body in seen["bodies"]],
        "pieces": [{"mark": piece["mark"]} for piece in seen["pieces"]],
        "steps": [],
        "labels": [],
        "views": [viewpoint_of(view, say) for view in (*views, back)],
    }


def _head(layout: Layout, logo: tuple[str, bytes] | None, say: Speaker) -> str:
    """Return who offers the roof, and whose it is."""
    shop = layout.scene.shop
    picture = ""
    if logo is not None:
        kind, raw = logo
        name = escape(shop.name or say("Logo"))
        picture = f'<img class="cu-logo" alt="{name}" src="{_url(kind, raw)}">'
    offered = f'<p class="cu-shop">{escape(shop.name)}</p>' if shop.name else ""
    return (
        f'<header class="cu-head">{picture}<div>{offered}<h1>{escape(layout.scene.title)}</h1></div></header>'
    )


def _looks(looks: Sequence[ShownLook], say: Speaker) -> str:
    """Return a card with a picture for each look, a swatch for each color to try, and what is told of each."""
    cards, swatches, abouts = [], [], []
    for number, look in enumerate(looks):
        name = escape(name_of(look, say))
        rows = "".join(_row(say(what), say(words)) for what, words in _about(look.layout))
        if look.still is None:
            color = f'<span class="cu-color" style="--color:{look.layout.scene.colors.panels}"></span>'
            swatches.append(_card(number, f'{color}<span class="cu-name">{name}</span>', "cu-card cu-try"))
            abouts.append(
                f'<div class="cu-about cu-tried" data-look="{number}"><h3>{name}</h3><dl>{rows}</dl></div>'
            )
            continue
        image = f'<img alt="{name}" src="{_url("image/jpeg", look.still)}">'
        label = f'<span class="cu-letter">{letter(number)}</span><span class="cu-name">{name}</span>'
        cards.append(_card(number, image + label, "cu-card"))
        heading = f"<h3>{letter(number)}&ensp;{name}</h3>"
        abouts.append(f'<div class="cu-about" data-look="{number}">{heading}<dl>{rows}</dl></div>')
    heading = escape(say("Choose a look") if len(cards) > 1 else say("The look"))
    tries = ""
    if swatches:
        words = escape(say("Try another color"))
        tries = (
            f'<div class="cu-tries"><h3>{words}</h3><ul class="cu-swatches">{"".join(swatches)}</ul></div>'
        )
    return (
        f'<section class="cu-looks"><h2>{heading}</h2><ul class="cu-cards">{"".join(cards)}</ul>{tries}'
        f"{''.join(abouts)}</section>"
    )


def _card(number: int, inner: str, kinds: str) -> str:
    """Return a button that chooses a look, as an item of a list."""
    return f'<li><button type="button" class="{kinds}" data-look="{number}">{inner}</button></li>'


def _about(layout: Layout) -> Iterator[tuple[Message, Message]]:
    """Yield what a look is, line by line."""
    scene = layout.scene
    metal, colors, bare = METALS[scene.metal.kind], scene.colors, is_bare(scene)
    label = metal.label(scene.metal.thickness)
    thick: Message | Fine = message("{label}", label=label) if label else Fine(scene.metal.thickness)
    yield message("Metal"), message("{metal}, {thickness}", metal=metal.title, thickness=thick)
    if scene.panels.show and colors.panels != colors.trim:
        yield message("Panels"), color_name(colors.panels, scene, bare)
        yield message("Trim"), color_name(colors.trim, scene, bare)
    else:
        yield message("Color"), color_name(colors.trim, scene, bare)
    for color in () if bare else dict.fromkeys((colors.panels, colors.trim)):
        for one in scene.shop.color:
            if one.color == color and one.reflectance is not None:
                yield (
                    message("Reflectance"),
                    message(
                        "{name} sends back {share} % of the sun's light and heat",
                        name=one.name,
                        share=one.reflectance,
                    ),
                )
    if scene.panels.show:
        yield (
            message("Seams"),
            message(
                "{height} high, every {cover}",
                height=Length(scene.panels.seam),
                cover=Length(scene.panels.cover),
            ),
        )


def _photo(looks: Sequence[ShownLook], before: bytes, say: Speaker) -> str:
    """Return the house before and after, one over the other; a script lets the customer slide between them."""
    after = []
    for number, look in enumerate(looks):
        if look.after is not None:
            words = escape(say("With {name}", name=name_of(look, say)))
            data = _url("image/jpeg", look.after)
            after.append(f'<img class="cu-after" data-look="{number}" alt="{words}" src="{data}">')
    heading, words = (escape(one) for one in (say("Before and after"), say("The house as it is")))
    first = f'<img class="cu-before" alt="{words}" src="{_url("image/jpeg", before)}">'
    return f'<section class="cu-photo"><h2>{heading}</h2><div class="cu-slide">{first}{"".join(after)}</div></section>'


def _made_of(layout: Layout, say: Speaker) -> str:
    """Return what the roof is made of, whatever its look."""
    rows = "".join(_row(say(what), words) for what, words in _parts(layout, say))
    cautions = "".join(_item(say(one)) for one in CAUTIONS)
    made, good = (escape(one) for one in (say("What the roof is made of"), say("Good to know")))
    return (
        f'<section class="cu-made"><h2>{made}</h2><dl>{rows}</dl><h2>{good}</h2><ul>{cautions}</ul></section>'
    )


def _parts(layout: Layout, say: Speaker) -> Iterator[tuple[Message, str]]:
    """Yield what each part of the roof is."""
    scene = layout.scene
    yield message("Roof area"), say("{area}", area=Expanse(sum(face.area for face in layout.roof.faces)))
    if layout.panels:
        longest = Length(max(panel.length for panel in layout.panels))
        lock = LOCKS.get(scene.panels.profile, message("{name}", name=scene.panels.profile))
        yield (
            message("Panels"),
            say("Standing seam, {lock}; each in one length, up to {longest}", lock=lock, longest=longest),
        )
    trims = dict.fromkeys(run.trim for run in layout.runs)
    if trims:
        edges = Listed(tuple(LOOKS[trim].title for trim in trims), "comma")
        yield message("Edges"), say("{edges}, bent to this roof's own pitch", edges=edges)
    if scene.house.gutters in GUTTERS:
        color = scene.colors.gutters
        told = message("as the trim") if color is None else color_name(color, scene)
        yield message("Gutters"), say("{shape}, {color}", shape=GUTTERS[scene.house.gutters], color=told)


def _foot(layout: Layout, say: Speaker) -> str:
    """Return how the shop is reached."""
    shop = layout.scene.shop
    if not shop.contact:
        return ""
    heading = escape(shop.name or say("Contact"))
    lines = "".join(_item(line) for line in shop.contact)
    return f'<footer class="cu-foot"><h2>{heading}</h2><ul class="cu-contact">{lines}</ul></footer>'


def _item(words: str) -> str:
    return f"<li>{escape(words)}</li>"


def _row(what: str, words: str) -> str:
    return f"<div><dt>{escape(what)}</dt><dd>{escape(words)}</dd></div>"


def _url(kind: str, raw: bytes) -> str:
    return f"data:{kind};base64,{base64.b64encode(raw).decode('ascii')}"
