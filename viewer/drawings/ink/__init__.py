"""Ink: strokes, areas and words, how wide letters run, and what writes them as SVG, PDF and PNG."""
