"""The rules, one a file: what each finds, why it matters, and what to do about it."""
