"""What is in a candle and how full it is: blends, densities, geometry, weights."""
