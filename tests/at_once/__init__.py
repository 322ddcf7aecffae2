"""Commands at the same moment, and commands that are killed, in real processes."""
