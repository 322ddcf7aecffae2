"""Issued sheets as values, and how they differ."""
