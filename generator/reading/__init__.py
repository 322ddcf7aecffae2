"""Files to model: the only room that knows YAML and CSV."""
