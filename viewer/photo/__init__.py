"""Photo: the roof on the photograph of a house: where the camera stood is solved from corners tapped in it."""
