"""The drawing kit: type, page, drawing and its files, labels, marks, tables, true scale."""
