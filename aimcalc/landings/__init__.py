"""What came back from the deck, and what has changed since a print."""
