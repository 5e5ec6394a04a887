"""A hang list as people keep it, read by what it says: table or lines, headings, cells, places and words."""
