"""What the pure rules promise."""
