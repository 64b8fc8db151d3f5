"""The houses that are timed."""

HOUSE = """
title = "House of forty pieces"
[roof]
form = "gable"
length = "86'"
width = "40'"
pitch = "6/12"
[metal]
stock = ["10' 6\\""]
"""

HIP = """
title = "Hip of some forty pieces"
[roof]
form = "hip"
length = "64'"
width = "36'"
pitch = "6/12"
end_pitch = "8/12"
"""


def gable(length: float) -> str:
    """Return a gable so many feet long; of 112 feet it takes 48 pieces and 172 panels."""
    return (
        f'title = "Gable"\n[roof]\nform = "gable"\nlength = "{length:g}\'"\nwidth = "36\'"\npitch = "6/12"\n'
    )


def winged() -> dict[str, object]:
    """Return the scene of a hip roof with four wings on either side: 28 slopes, 16 valleys, 150 pieces."""
    front, back = [], []
    for x in (120.0, 456.0, 792.0, 1128.0):
        front += [[x, 0.0], [x, -96.0], [x + 168.0, -96.0], [x + 168.0, 0.0]]
        back += [[x, 336.0], [x, 432.0], [x + 168.0, 432.0], [x + 168.0, 336.0]]
    outline = [[0.0, 0.0], *front, [1440.0, 0.0], [1440.0, 336.0], *back[::-1], [0.0, 336.0]]
    roof = {"form": "outline", "outline": outline, "pitch": "6/12", "wall_height": "12'"}
    return {"title": "Hall with eight wings", "roof": roof, "metal": {"stock": ["10' 6\""]}}
