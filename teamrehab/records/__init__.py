"""The encrypted casebook: facts written once, read back as they stand. This is its door."""
