"""What a computer reads: report.json, lists, patterns, nested sheets and the 3D model."""
