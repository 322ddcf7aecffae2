"""What each paper says, one module per kind of paper."""
