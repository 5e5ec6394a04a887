"""One row of a list: what it is, what its cells say, and the units that it stands for."""
