"""After training: the evening typed row by row, its end, and the next morning."""
