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
