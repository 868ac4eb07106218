"""When a case is likely to be cleared: published figures, corrected by the club's own."""
