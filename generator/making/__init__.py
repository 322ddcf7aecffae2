"""A shop is loaded, worked out, printed, set and laid out."""
