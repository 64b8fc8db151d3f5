"""Paper: pages with head and foot, blocks that flow over them, and the pins of findings."""
