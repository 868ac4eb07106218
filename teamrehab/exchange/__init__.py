"""Rosters, fixtures and other files that come in from elsewhere."""
