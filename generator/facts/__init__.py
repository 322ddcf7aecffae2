"""One Recorded to one Facts: every figure and sentence any paper may print."""
