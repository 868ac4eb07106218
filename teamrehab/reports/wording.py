"""How days, ranges, availability and chances are said, the same wherever they are read."""

from collections.abc import Sequence
from datetime import date, datetime
from math import floor

from teamrehab.domain.availability import AbsenceReason, Availability, Match, Training
from teamrehab.domain.day_names import day_and_year, day_words, month_words, weekday_words
from teamrehab.domain.days import Fixture, days_to_match
from teamrehab.language import _
from teamrehab.reports.findings import MatchOutlook, Outlook

__all__ = ["day_and_year", "day_words", "month_words", "weekday_words"]

ROUNDING = 1e-9
"""Added before a chance is rounded, so that two machines show the same words."""


def month_and_year(day: date) -> str:
    """Return "Mar 2024", for a day that is remembered only so far."""
    return _("{month} {year}").format(month=month_words(day), year=day.year)


def hour_words(when: datetime) -> str:
    """Return the wall time as "12:00"."""
    return f"{when:%H:%M}"


def moment_words(when: datetime) -> str:
    """Return "Wed 16 Dec, 12:00"."""
    return _("{day}, {hour}").format(day=day_words(when.date()), hour=hour_words(when))


def days_words(first: date, last: date) -> str:
    """Return "14–23 Dec", "28 Nov to 3 Dec" or, across a year, "28 Dec to 3 Jan 2027"."""
    fields = {
        "first": first.day,
        "last": last.day,
        "month": month_words(first),
        "last_month": month_words(last),
        "year": last.year,
    }
    if first == last:
        return _("{first} {month}").format(**fields)
    if first.year != last.year:
        return _("{first} {month} to {last} {last_month} {year}").format(**fields)
    if first.month != last.month:
        return _("{first} {month} to {last} {last_month}").format(**fields)
    return _("{first}–{last} {month}").format(**fields)


def window_words(earliest: date | None, latest: date | None) -> str:
    """Return the days of a range; "" where it has not even a beginning."""
    if earliest is None:
        return ""
    if latest is None:
        return _("{day} or later").format(day=day_words(earliest))
    return days_words(earliest, latest)


def range_words(earliest: date | None, latest: date | None) -> str:
    """Return the range that holds 8 in 10: "14–23 Dec (8 in 10)"; "" without any end."""
    days = window_words(earliest, latest)
    if not days:
        return ""
    message = _("{days} (8 in 10)") if latest is not None else _("{days} (9 in 10)")
    return message.format(days=days)


def match_day_words(day: date, fixtures: Sequence[Fixture]) -> str:
    """Return "MD", "MD-2" or "MD+1"; "" where no match lies within seven days."""
    offset = days_to_match(day, fixtures)
    if offset is None:
        return ""
    return f"MD{offset:+d}" if offset else "MD"


def fixture_words(fixture: Fixture) -> str:
    """Return a match as "Sat 19 Dec, 15:00, Harbour United (home)"."""
    fields = {"day": day_words(fixture.on), "opponent": fixture.opponent}
    if fixture.kick_off is None:
        message = (
            _("{day}, {opponent} (home)") if fixture.home else _("{day}, {opponent} (away)")
        )
        return message.format(**fields)
    with_hour = (
        _("{day}, {hour}, {opponent} (home)")
        if fixture.home
        else _("{day}, {hour}, {opponent} (away)")
    )
    return with_hour.format(hour=hour_words(fixture.kick_off), **fields)


def training_words(training: Training) -> str:
    """Return the answer for training in a word or two."""
    return {
        Training.FULL: _("full"),
        Training.WITH_LIMITS: _("with limits"),
        Training.NONE: _("none"),
    }[training]


def match_words(match: Match) -> str:
    """Return the answer for matches in a word or two."""
    return {
        Match.AVAILABLE: _("available"),
        Match.LIMITED: _("available with a limit"),
        Match.UNDECIDED: _("to be decided"),
        Match.NOT_AVAILABLE: _("not available"),
    }[match]


def match_sentence(availability: Availability) -> str:
    """Return the answer for matches with its minutes, role or the decision's date."""
    if availability.match is Match.LIMITED:
        return _limited_match(availability.match_minutes, availability.match_role)
    if availability.match is Match.UNDECIDED and availability.next_update is not None:
        return _("decision {moment}").format(moment=moment_words(availability.next_update))
    return match_words(availability.match)


def _limited_match(minutes: int | None, role: str) -> str:
    if minutes is not None and role:
        return _("available up to {minutes} minutes, {role}").format(minutes=minutes, role=role)
    if minutes is not None:
        return _("available up to {minutes} minutes").format(minutes=minutes)
    if role:
        return _("available, {role}").format(role=role)
    return match_words(Match.LIMITED)


def absence_words(reason: AbsenceReason, until: date | None) -> str:
    """Return why a healthy athlete is away, and until when where that is known."""
    why = {
        AbsenceReason.SUSPENDED: _("suspended"),
        AbsenceReason.NATIONAL_TEAM: _("with the national team"),
        AbsenceReason.PERSONAL: _("personal"),
        AbsenceReason.OTHER: _("other"),
    }[reason]
    if until is None:
        return why
    return _("{why}, until {day}").format(why=why, day=day_words(until))


def tenths(chance: float) -> int:
    """Return a chance in tenths, rounded, so that the words said of both ends are true.

    0 only under 1 in 10; 9, which is said as "or more", only from 9 in 10; never 10.
    """
    if chance + ROUNDING < 0.1:
        return 0
    if chance + ROUNDING >= 0.9:
        return 9
    return min(floor(chance * 10 + 0.5 + ROUNDING), 8)


def chance_words(chance: float, *, decided: bool = False) -> str:
    """Return a chance in words and tenths; what a person decided is said as decided."""
    if decided:
        return _("available, decided") if chance > 0.5 else _("ruled out, decided")
    n = tenths(chance)
    if n == 0:
        return _("not expected, under 1 in 10")
    if n == 9:
        return _("expected, 9 in 10 or more")
    message = _("likely, {n} in 10")
    if n <= 6:
        message = _("doubtful, {n} in 10") if n >= 4 else _("unlikely, {n} in 10")
    return message.format(n=n)


def expected_words(possible: int, expected: float) -> str:
    """Return how many of the possible to count on: the sum of their chances, rounded."""
    if not possible:
        return _("none possible")
    about = floor(expected + 0.5 + ROUNDING)
    if about == 0:
        return _("{possible} possible (fewer than 1 expected)").format(possible=possible)
    return _("{possible} possible (about {about} expected)").format(
        possible=possible, about=about
    )


def assessed_words(next_update: datetime | None) -> str:
    """Return what is said where there is no range: never why."""
    if next_update is None:
        return _("being assessed")
    return _("being assessed, next update {day} {hour}").format(
        day=weekday_words(next_update.date()), hour=hour_words(next_update)
    )


def today_words(outlook: Outlook) -> str:
    """Return who trains today, in one line."""
    return _("{full} full, {limits} with limits, {none} not training, {away} away").format(
        full=outlook.full, limits=outlook.with_limits, none=outlook.none, away=outlook.away
    )


def match_outlook_words(match: MatchOutlook) -> str:
    """Return how many can play one match: available, possible, out, not known yet."""
    fields = {
        "available": match.available,
        "possible": expected_words(match.possible, match.expected_of_possible),
        "out": match.out,
        "assessed": match.being_assessed,
    }
    if match.being_assessed:
        return _(
            "{available} available, {possible}, {out} out, {assessed} being assessed"
        ).format(**fields)
    return _("{available} available, {possible}, {out} out").format(**fields)


def outlook_sentence(outlook: Outlook) -> str:
    """Return who trains today, and a line for each coming match."""
    today = _("{day}: {numbers}").format(
        day=day_words(outlook.day), numbers=today_words(outlook)
    )
    matches = [
        _("{match}: {numbers}").format(
            match=fixture_words(match.fixture), numbers=match_outlook_words(match)
        )
        for match in outlook.matches
    ]
    return "\n".join([today, *matches])
