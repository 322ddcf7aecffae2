"""A shop as older programs wrote it, never edited: what it said then must stay true."""
