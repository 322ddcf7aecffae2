"""What quantities, words and things promise."""
