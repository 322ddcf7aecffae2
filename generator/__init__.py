"""Wickwright: a candle maker's records in, every paper that depends on them out."""
