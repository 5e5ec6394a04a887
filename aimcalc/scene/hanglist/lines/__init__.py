"""Lists without a table: a mail or a note with a line a unit."""
