"""What the program promises, one folder a room."""
