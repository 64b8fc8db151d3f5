"""What is told in words and numbers: report, lists, tables, 3D model, and the pages of the rules."""
