"""Offer: what a roof comes to for a customer, priced from the shop's own list, as pages and as numbers."""
