"""Issued sheets and the maker's other books: what they hold, how two revisions differ, and what is appended to them."""
