"""One run: the elevation, with an overview and a strip for each piece."""
