"""The desktop window: the roof to be turned, read and set in order with the mouse and the keys."""
