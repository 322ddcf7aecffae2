"""Papers that are printed or sent."""
