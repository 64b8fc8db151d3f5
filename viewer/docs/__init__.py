"""Pages of ``docs/`` that are made from the code, so that they say what it does."""
