"""The invented seasons: which Saturdays are played, against whom; the calendar file."""

from datetime import date, datetime, time, timedelta

from demo_roster.people import ANCHOR

CLUB = "Velmarsh Harriers"
SPORT = "football"
OPPONENTS = (
    "Ostrey Town",
    "Pellwick Rangers",
    "Brantholme Athletic",
    "Cawdle Park",
    "Thornesby Wanderers",
    "Lower Quenby",
    "Marrowfleet",
    "Isk Valley",
    "Great Hexmere",
    "Dunnock Bridge",
    "Saltreach United",
    "Fennimore Vale",
)
WEEKS = 42
PRE_SEASON = 4
BREAK = (20, 21)
"""Weeks of a season: the first four without matches, two free ones in winter."""
_WEEK = timedelta(weeks=1)


def starts() -> tuple[date, ...]:
    """Return the first Mondays of three past seasons and of the one that is running."""
    this = ANCHOR - 9 * _WEEK
    return tuple(this - 52 * back * _WEEK for back in (3, 2, 1, 0))


def weeks_until(last: date) -> list[tuple[date, bool]]:
    """Return (Monday, whether a match is played that Saturday) of every week to ``last``."""
    found = []
    for start in starts():
        for week in range(WEEKS):
            monday = start + week * _WEEK
            match = PRE_SEASON <= week < WEEKS - 1 and week not in BREAK
            if monday <= last:
                found.append((monday, match))
    return found


def saturday(monday: date) -> date:
    """Return the match day of a week."""
    return monday + timedelta(days=5)


def calendar() -> str:
    """Return all four seasons as an iCalendar file (RFC 5545), times in the club's own zone."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:-//{CLUB} (invented)//demo//EN"]
    played = [monday for monday, match in weeks_until(date.max - 2 * _WEEK) if match]
    for count, monday in enumerate(played):
        lines += _event(count, saturday(monday))
    return "\r\n".join([*lines, "END:VCALENDAR", ""])


def _event(count: int, day: date) -> list[str]:
    opponent = OPPONENTS[(count * 5) % len(OPPONENTS)]
    home = count % 2 == 0
    sides = (CLUB, opponent) if home else (opponent, CLUB)
    kick_off = datetime.combine(day, time(15 if home else 14))
    return [
        "BEGIN:VEVENT",
        f"UID:match-{count + 1:03}@velmarsh.invalid",
        "DTSTAMP:20260701T090000Z",
        f"DTSTART:{kick_off:%Y%m%dT%H%M%S}",
        "DURATION:PT2H",
        f"SUMMARY:{sides[0]} v {sides[1]}",
        "END:VEVENT",
    ]
