"""What labels must say, how tall, and on which stock they fit."""
