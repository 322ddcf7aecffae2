"""Tables that are data: words of the site, limits, symbols."""
