"""The pages of the site and of the workshop."""
