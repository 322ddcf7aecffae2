"""What things are: quantities, materials, vessels, candles, the shop; frozen, without behaviour of their own."""
