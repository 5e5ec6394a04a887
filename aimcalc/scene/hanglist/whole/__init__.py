"""What only the whole of a list tells: sides, places and channels that no row says."""
