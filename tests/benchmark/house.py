"""The house whose page and whose live view are timed."""

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
