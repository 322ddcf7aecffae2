"""Appending to the maker's own files."""
