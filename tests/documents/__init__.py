"""What each paper says, from a house worked out by hand."""
