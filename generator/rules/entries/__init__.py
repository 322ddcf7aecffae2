"""Whether entries agree with each other and can be true."""
