"""Days and chances in the words agreed for people, written again apart from the program."""

from datetime import date, datetime


def in_day(on: date) -> str:
    """Return "Mon 14 Dec"."""
    return f"{on:%a} {on.day} {on:%b}"


def in_moment(when: datetime) -> str:
    """Return "Mon 14 Dec, 12:00"."""
    return f"{in_day(when.date())}, {when:%H:%M}"


def in_days(first: date, last: date) -> str:
    """Return the range that holds 8 in 10, as screen and paper say it."""
    if first.month == last.month:
        return f"{first.day}–{last.day} {last:%b} (8 in 10)"
    return f"{first.day} {first:%b} to {last.day} {last:%b} (8 in 10)"


def in_tenths(chance: float) -> str:
    """Return a chance by the agreed bands; nothing estimated is ever 0 or 10 in 10."""
    if chance < 0.1:
        return "not expected, under 1 in 10"
    n = min(int(chance * 10 + 0.5), 8)
    if chance >= 0.9:
        return "expected, 9 in 10 or more"
    word = "unlikely" if n <= 3 else "doubtful" if n <= 6 else "likely"
    return f"{word}, {n} in 10"
