"""Which column of a table holds what: by its heading, by its cells, or by both."""
