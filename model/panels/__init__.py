"""Standing-seam panels: sheets like the trim, laid on every face, and what holds and closes them."""
