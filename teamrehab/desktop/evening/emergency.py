"""Answers in a row that are an emergency: what they mean for the page."""

from teamrehab.desktop.evening.entry import Entry
from teamrehab.desktop.evening.row_values import check_of
from teamrehab.domain.injuries import Urgency
from teamrehab.domain.safety import answered
from teamrehab.language import _


def is_emergency(entry: Entry) -> bool:
    """Return whether the four answers typed in a row need an emergency service now."""
    check = check_of(entry.typed, entry.tonight, "")
    return check is not None and answered(check).urgency is Urgency.EMERGENCY


def emergency_words(surname: str) -> str:
    """Return what comes before any other row."""
    said = _("Emergency, {name}: call emergency medical care now and stay with the athlete.")
    return said.format(name=surname)
