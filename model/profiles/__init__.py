"""Profiles: the catalogue, and the section that a roof's angles make of one."""
