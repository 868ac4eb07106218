"""Findings drawn on paper: frozen values in, PDF bytes out."""
