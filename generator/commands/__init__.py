"""One module for each command, read top to bottom."""
