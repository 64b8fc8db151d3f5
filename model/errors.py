"""Errors that a person can act on: each names the place, the problem and the way out, in one line."""


class TrimwrightError(Exception):
    """Anything that keeps a scene from becoming a layout; the command line prints it and exits with 2."""


class SceneError(TrimwrightError):
    """A scene that cannot be read or built; carries every problem found, one line each."""

    def __init__(self, problems: list[str]) -> None:
        """Keep ``problems``, each ``place: what came and what is allowed, and the way out``."""
        super().__init__("\n".join(problems))
        self.problems = tuple(problems)


class GeometryError(TrimwrightError):
    """A shape that cannot exist: planes that do not meet, a cut that leaves nothing."""
