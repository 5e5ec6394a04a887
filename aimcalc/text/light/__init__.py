"""The light in words, tables, lists and JSON: what `cover`, `ask` and `lens` print."""
