"""The customer's side: a page with the finished roof in its looks, and nothing of the workshop on it."""
