"""What the lines round a table say: of places, of sides, of names."""
