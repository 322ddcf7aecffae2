"""Bytes and folders; knows nothing of candles."""
