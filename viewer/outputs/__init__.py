"""What is written into a folder, and under which names."""
