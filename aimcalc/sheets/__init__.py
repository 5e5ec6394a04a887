"""Everything a person looks at: drawings, PDF pages, lists."""
