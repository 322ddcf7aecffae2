"""Chemical safety of the finished candle: constituents, classes, label, and the loads that change it."""
