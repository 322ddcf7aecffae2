"""How long things take, by the markers 'benchmark'."""
