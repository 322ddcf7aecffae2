"""What goes with the example shop: its pictures, and a shop of a thousand stock codes."""
