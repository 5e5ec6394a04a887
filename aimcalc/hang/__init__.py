"""The work at the pipe before anything is pointed: marks, loads, tails, cable, circuits, counts."""
