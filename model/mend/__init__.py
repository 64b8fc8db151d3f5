"""Mend: changes that rules propose are made, laid out again and checked, before anybody is told of them."""
