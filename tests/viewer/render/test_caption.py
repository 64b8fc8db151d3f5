"""The caption of a picture: it is as high as its words, and none of them is cut off."""

from dataclasses import replace

import pytest
from PIL import Image

from tests.zoo import layout
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.render.caption import STRIP, caption_of
from trimwright.viewer.render.lettering import ClearSheet
from trimwright.viewer.words.speaker import speaker

SIZES = (800, 500)


@pytest.mark.parametrize("codes", [("en",), ("en", "es")])
@pytest.mark.parametrize("title", ["Shed", "A shed with a name that takes half of the width of its picture"])
def test_no_word_of_a_caption_is_cut_off(codes: tuple[str, ...], title: str) -> None:
    own = stage_of(layout("boat-shed"), ())
    view = next(view for name, view in own.viewpoints.items() if name.endswith("apart"))
    scene = own.scene.model_copy(update={"title": title})
    renamed = replace(own, layout=replace(own.layout, scene=scene))
    caption = caption_of(renamed, view, SIZES, speaker(codes))
    ruler = ClearSheet(Image.new("RGB", (1, 1)))
    wide, high = SIZES
    for line in caption.said:
        assert caption.beside + ruler.measure(line, high * 0.022)[0] <= wide
    for line in caption.told:
        assert ruler.measure(line, high * 0.0165)[0] <= wide
    rows = len(caption.said) + len(caption.told)
    assert caption.height >= round(high * STRIP)
    assert (caption.height > round(high * STRIP)) == (rows > 2)
