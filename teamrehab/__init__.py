"""Rehab decisions, clearance estimates and availability for a sports team's medical staff."""

__version__ = "0.3.0"
