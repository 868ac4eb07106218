"""One athlete: the case, what is missing, what is likely, and what is decided."""
