"""Pure rules: model in, figures and faults out, each with its source."""
