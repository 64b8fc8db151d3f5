"""Points, planes and polygons; knows no roofs."""
