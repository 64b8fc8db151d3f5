"""Checks: what is wrong with a layout, where, by how much, and what to do about it; one rule a file."""
