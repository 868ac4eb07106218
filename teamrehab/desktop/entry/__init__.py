"""Where tests and sessions are typed in."""
