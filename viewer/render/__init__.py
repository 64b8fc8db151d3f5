"""Pictures: drawn from triangle to pixel by loops compiled here, so that no graphics driver is needed."""
