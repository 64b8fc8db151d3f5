"""Coats: one description of a surface for all who draw it."""

from zoo import layout

from trimwright.model.metals import METALS
from trimwright.model.scene.dressed import dressed
from trimwright.model.scene.look import LookSpec
from trimwright.viewer.display.coats import BARE, PAINT, bare_coat, coat_of
from trimwright.viewer.display.color_math import rgb


def test_every_metal_has_a_coat_for_each_age() -> None:
    for kind, metal in METALS.items():
        assert len(BARE[kind]) == max(1, len(metal.patina))
        for age, coat in zip(metal.patina, BARE[kind], strict=False):
            assert bare_coat(kind, rgb(age)) == coat


def test_paint_and_bare_metal_are_told_apart() -> None:
    scene = layout("boat-shed").scene
    assert coat_of(scene, rgb(scene.colors.panels)) == PAINT["satin"]
    copper = dressed(scene, LookSpec(name="Copper", metal={"kind": "copper"}))
    assert coat_of(copper, rgb(copper.colors.trim)) == BARE["copper"][0]
    matt = dressed(scene, LookSpec(name="Matt", colors={"coat": "matt"}))
    assert coat_of(matt, (0, 0, 0)) == PAINT["matt"]
    gloss = scene.model_copy(update={"colors": scene.colors.model_copy(update={"coat": "gloss"})})
    assert dressed(gloss, LookSpec(name="Zinc", metal={"kind": "zinc"})).colors.coat is None
