"""What keeps a picture from being drawn."""

from trimwright.model.errors import TrimwrightError


class PictureError(TrimwrightError):
    """This machine cannot draw pictures, or the file cannot be written; all else works without them."""
