"""Drawings of candles and of hazard signs; knows no house."""
