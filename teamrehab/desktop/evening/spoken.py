"""A row of the evening as one sentence, for those who hear the screen."""

from teamrehab.desktop.evening.entry import Entry
from teamrehab.desktop.evening.move_part import name_words
from teamrehab.desktop.evening.row_words import coach_words, typed_words
from teamrehab.language import _
from teamrehab.reports.wording_evening import due_sentence


def spoken(entry: Entry) -> str:
    """Return who it is, the plan, what is typed and how the row stands."""
    line = entry.tonight.line
    alike = _("Another name on this page is alike: check.") if line.alike else ""
    plan = line.stopped or _("Plan: {plan}.").format(plan=line.plan_words)
    parts = (
        f"{name_words(line)}.",
        alike,
        plan,
        *entry.tonight.plan.notes,
        typed_words(entry.shown),
        due_sentence(line.due),
        coach_words(entry.tonight) if entry.tonight.coach else "",
        status_words(entry) + ".",
    )
    return " ".join(part for part in parts if part)


def status_words(entry: Entry) -> str:
    """Return how a row stands: not entered, typed, being saved or saved with the hour."""
    if entry.saving:
        return _("being saved")
    if entry.replaces:
        return _("correction, not saved")
    if entry.is_typed:
        return _("typed, not saved")
    if entry.is_entered:
        return _saved_words(entry)
    if entry.kept_at:
        return _("test, note {hour}").format(hour=entry.kept_at)
    return _("away tonight") if entry.tonight.line.away else _("not entered")


def _saved_words(entry: Entry) -> str:
    several = len(entry.tonight.line.noted)
    hour = entry.kept_at or entry.saved_at
    if several > 1:
        return _("saved {hour}, {count} entries").format(hour=hour, count=several)
    return _("saved {hour}").format(hour=hour)
