"""What is laid, clipped or taped along a pipe at true size: the hang strip, saddle labels, the tape list."""
