"""Rehab protocols and the injury catalogue, read from their files."""
