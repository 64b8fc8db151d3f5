"""What keeps a picture from being drawn."""

from trimwright.model.errors import TrimwrightError


class PictureError(TrimwrightError):
    """A picture's file cannot be written."""
