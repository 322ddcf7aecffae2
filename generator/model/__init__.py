"""What things are: quantities, materials, vessels, candles, the shop; all frozen."""
