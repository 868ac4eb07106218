"""The window: Qt begins and ends here."""
