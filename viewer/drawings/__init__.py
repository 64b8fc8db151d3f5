"""Drawings on paper: cut sheets, patterns, elevations and the plan."""
