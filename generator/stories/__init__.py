"""One file per command, each read top to bottom."""
