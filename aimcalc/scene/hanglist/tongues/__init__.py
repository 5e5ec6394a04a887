"""What lists in other languages say of places and positions."""
