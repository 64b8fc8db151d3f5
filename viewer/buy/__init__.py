"""What to buy, as lists."""
