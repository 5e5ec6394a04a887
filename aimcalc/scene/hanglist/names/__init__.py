"""Names of positions, targets and kinds, as a list spells them."""
