"""The squad table and what it says at a glance."""
