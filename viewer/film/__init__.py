"""The film: a roof set piece by piece before still cameras, as a moving picture."""
