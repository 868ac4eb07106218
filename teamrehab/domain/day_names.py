"""How a day is named: with its weekday, and the month in letters, that none can misread."""

from datetime import date

from teamrehab.language import _


def weekday_words(day: date) -> str:
    """Return the short name of the weekday."""
    names = (_("Mon"), _("Tue"), _("Wed"), _("Thu"), _("Fri"), _("Sat"), _("Sun"))
    return names[day.weekday()]


def month_words(day: date) -> str:
    """Return the short name of the month: in letters, so that no date can be misread."""
    names = (
        *(_("Jan"), _("Feb"), _("Mar"), _("Apr"), _("May"), _("Jun")),
        *(_("Jul"), _("Aug"), _("Sep"), _("Oct"), _("Nov"), _("Dec")),
    )
    return names[day.month - 1]


def day_words(day: date) -> str:
    """Return "Mon 14 Dec"."""
    return _("{weekday} {day} {month}").format(
        weekday=weekday_words(day), day=day.day, month=month_words(day)
    )


def day_and_year(day: date) -> str:
    """Return "Mon 14 Dec 2026"."""
    return _("{day} {year}").format(day=day_words(day), year=day.year)
