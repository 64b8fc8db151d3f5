"""The packet: cover, contents, checklist, findings and lists, bound with the drawings of roof, runs and pieces."""
