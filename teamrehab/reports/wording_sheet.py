"""The sentences of the coach's sheet, the same on paper and in plain text."""

from datetime import date

from teamrehab.language import _
from teamrehab.reports.findings import CoachLine, CoachSheet, MatchOutlook
from teamrehab.reports.wording import (
    assessed_words,
    day_and_year,
    day_words,
    days_words,
    fixture_words,
    hour_words,
    moment_words,
    range_words,
)


def title_words(sheet: CoachSheet) -> str:
    """Return the sheet's title, the only thing its file says of itself."""
    return _("Availability sheet {number}").format(number=sheet.number)


def week_words(sheet: CoachSheet) -> str:
    """Return "Week of 14–20 Dec"."""
    return _("Week of {days}").format(days=days_words(*sheet.week))


def validity_words(sheet: CoachSheet) -> str:
    """Return when the sheet was printed and until when it counts."""
    return _("Printed {day}, {hour}. Valid until {until}.").format(
        day=day_and_year(sheet.printed_at.date()),
        hour=hour_words(sheet.printed_at),
        until=day_words(sheet.valid_until),
    )


def number_words(sheet: CoachSheet) -> str:
    """Return the sheet's number and which sheet it replaces."""
    if sheet.replaces is None:
        return _("Sheet {number}, the first").format(number=sheet.number)
    return _("Sheet {number}, replaces sheet {before}").format(
        number=sheet.number, before=sheet.replaces
    )


def match_head(match: MatchOutlook) -> str:
    """Return the match itself: day, hour, opponent, home or away."""
    return fixture_words(match.fixture)


def may_words(line: CoachLine) -> str:
    """Return what the athlete may do, "" where the sheet lists nothing."""
    if not line.may:
        return ""
    return _("May: {activities}").format(activities=", ".join(line.may))


def may_not_words(line: CoachLine) -> str:
    """Return what the athlete may not do, "" where nothing is forbidden."""
    if not line.may_not:
        return ""
    return _("May not: {activities}").format(activities=", ".join(line.may_not))


def until_words(line: CoachLine) -> str:
    """Return until when the limits hold, or when they are looked at again."""
    if line.until is not None:
        return _("until {day}").format(day=day_words(line.until))
    if line.next_update is not None:
        return _("until further notice, next update {moment}").format(
            moment=moment_words(line.next_update)
        )
    if line.was_due is not None:
        return _("until further notice, update was due {moment}").format(
            moment=moment_words(line.was_due)
        )
    return _("until further notice")


def return_words(line: CoachLine) -> str:
    """Return the likely return: what persons said, then the range, else being assessed."""
    parts = [
        not_before_words(line.not_before),
        expected_words(line.expected),
        range_words(line.earliest, line.latest),
    ]
    return "; ".join(part for part in parts if part) or assessed_words(None)


def not_before_words(day: date | None) -> str:
    """Return a decision about the first day that remains possible, "" without one."""
    return "" if day is None else _("not before {day}").format(day=day_words(day))


def expected_words(day: date | None) -> str:
    """Return the day the medical staff expect, "" where they name none."""
    return "" if day is None else _("expected about {day}").format(day=day_words(day))


def update_words(line: CoachLine) -> str:
    """Return when the medical staff say more, or when they were to and did not."""
    if line.next_update is not None:
        return moment_words(line.next_update)
    if line.was_due is not None:
        return _("was due {moment}").format(moment=moment_words(line.was_due))
    return _("no date set")


def unchanged_words(sheet: CoachSheet) -> str:
    """Return what stands where nothing is listed as changed."""
    if sheet.compared_with is None:
        return _("First sheet: nothing to compare with.")
    return _("Nothing since sheet {number}.").format(number=sheet.compared_with)


def signature_words(sheet: CoachSheet) -> str:
    """Return who answers for the sheet; a line to sign on where nobody has yet."""
    if not sheet.signed.strip() or not sheet.signature_fit:
        return _("Not signed: a draft")
    return _("Signed: {name}").format(name=sheet.signed)


def decision_words(who: str, moment: str) -> str:
    """Return whose next word comes when."""
    return _("{moment}: {name}").format(name=who, moment=moment)


def shirt_words(line: CoachLine) -> str:
    """Return the athlete's number as it is printed, "" without one."""
    return "" if line.number is None else str(line.number)


def caution_words() -> str:
    """Return the one line of caution of every sheet."""
    return _(
        "Ranges and chances are estimates: 2 in 10 return outside the range. "
        "Ask the medical staff before training or playing anyone beyond this sheet."
    )
