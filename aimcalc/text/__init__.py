"""Numbers and words, tables for terminals, lists, JSON."""
