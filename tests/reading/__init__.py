"""What the reader of the maker's files promises."""
