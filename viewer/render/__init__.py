"""Pictures: the only place that draws with pyvista."""
