"""What to buy and how to cut it: stock lengths by an exact cutting plan, and all that is counted."""
