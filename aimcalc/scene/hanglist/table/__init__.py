"""Where the table of a list is, and which column holds what."""
