"""The roof over any outline: its weighted straight skeleton, found by letting the eaves rise."""
