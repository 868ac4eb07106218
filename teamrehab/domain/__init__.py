"""What the trade knows, as plain frozen values: athletes, injuries, measures, decisions."""
