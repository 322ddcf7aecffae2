"""From `Recorded` to `Facts`: every figure and sentence any paper may print."""
