"""The coach's sheet before it goes out."""
