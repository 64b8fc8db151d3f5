"""The scene: what is asked for, read from TOML and checked."""
