"""Words: puts what the model and the viewer have to say into the language of whoever reads it."""
