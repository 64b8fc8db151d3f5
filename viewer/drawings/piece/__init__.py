"""One piece: its flat pattern, the formed piece, the steps of its ends, cut sheets and templates."""
