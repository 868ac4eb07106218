"""The headless commands; Qt is never imported here."""
