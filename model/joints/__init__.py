"""Corners and laps: one kind of joint a file; `corners` says which is made where."""
