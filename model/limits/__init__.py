"""Limits: the numbers that rules compare with, in named sets, each with its source."""
