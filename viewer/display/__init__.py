"""What is seen: bodies, colors, labels and view points, for pictures, windows and pages alike."""
