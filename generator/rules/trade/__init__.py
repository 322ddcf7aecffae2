"""What a candle costs, what shops pay, and what a case weighs."""
