"""Publishing: to a folder and to a real OpenSSH server on loopback."""
