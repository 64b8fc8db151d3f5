"""The roof from above: the plan, its labels and its key."""
