"""Names of edges and faces, as whoever reads them says them."""

from trimwright.viewer.words.roof_names import named
from trimwright.viewer.words.speaker import Speaker, speaker


def test_a_name_is_told_as_a_whole_in_the_order_of_the_language() -> None:
    assert named("front eave", Speaker()) == "front eave"
    assert named("front eave", speaker(("es",))) == "alero del frente"
    assert (
        named("right-end left rake 2", speaker(("es",))) == "borde inclinado izquierdo del extremo derecho 2"
    )
    assert named("back 2 eave", speaker(("es",))) == "alero de atrás 2"
    assert named("valley 3-4", speaker(("en", "es"))) == "valley 3-4 / limahoya 3-4"


def test_a_name_that_somebody_gave_stays() -> None:
    assert named("lookout of the harbor master", speaker(("es",))) == "lookout of the harbor master"
