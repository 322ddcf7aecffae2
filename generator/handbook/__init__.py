"""The manual: its pages read, searched, and made readable in a terminal and in a browser."""
