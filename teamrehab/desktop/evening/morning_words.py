"""What the cells of a line of the morning say."""

from datetime import date
from zoneinfo import ZoneInfo

from teamrehab.desktop.athlete.entry_words import symptom_words
from teamrehab.desktop.evening.morning_lines import MorningLine
from teamrehab.desktop.evening.morning_typed import TypedMorning
from teamrehab.domain.measures import Missed, MorningResponse
from teamrehab.language import _
from teamrehab.reports.wording import day_words, hour_words
from teamrehab.reports.wording_clinical import side_words


def headings() -> tuple[str, ...]:
    """Return the words above the columns, in the order of ``cells_of``."""
    return (
        _("No."),
        _("Athlete"),
        _("Side"),
        _("Last evening"),
        _("Morning before"),
        _("This morning"),
        _("Painkiller"),
        _("In the casebook"),
    )


def cells_of(
    line: MorningLine, typed: TypedMorning, zone: str, *, pending: bool
) -> tuple[str, ...]:
    """Return the words of every cell, those typed over those saved."""
    athlete, saved = line.history.athlete, line.saved
    symptom = typed.symptom or (saved.value.symptom if saved else None)
    painkiller = typed.painkiller
    if painkiller is None and saved is not None:
        painkiller = saved.value.painkiller
    return (
        "" if athlete.number is None else str(athlete.number),
        f"{athlete.surname}, {athlete.first_name}".strip(", "),
        side_words(line.history.case.side),
        _evening(line),
        _before(line.before, line.on),
        "" if symptom is None else symptom_words(symptom),
        {True: _("yes"), False: _("no"), None: ""}[painkiller],
        _state(line, typed, zone, pending=pending),
    )


def _evening(line: MorningLine) -> str:
    if line.trained:
        return symptom_words(line.evening)
    if line.missed is Missed.NOT_SEEN:
        return _("not seen")
    return _("session not done") if line.missed else _("no session")


def _before(before: MorningResponse | None, on: date) -> str:
    if before is None:
        return _("none noted")
    if (on - before.on).days == 1:
        return symptom_words(before.symptom)
    words, day = symptom_words(before.symptom), day_words(before.on)
    return _("{symptom} ({day})").format(symptom=words, day=day)


def _state(line: MorningLine, typed: TypedMorning, zone: str, *, pending: bool) -> str:
    told = _kept(line, typed, zone, pending=pending)
    if line.flagged:
        return _("{told}   red flag open").format(told=told)
    return _("{told}   rehab stopped").format(told=told) if line.stopped else told


def _kept(line: MorningLine, typed: TypedMorning, zone: str, *, pending: bool) -> str:
    if pending:
        return _("saving")
    if not typed.is_empty:
        return _("typed, not saved yet")
    if line.saved is None:
        return _("not entered")
    hour = hour_words(line.saved.noted_at.astimezone(ZoneInfo(zone)))
    told = [_("✓ {hour}").format(hour=hour)]
    if line.several:
        told.append(_("two entries, the worse one counts"))
    return "   ".join([*told, *(one.words for one in line.settled)])


def stop_words(line: MorningLine, coach: str) -> str:
    """Return why rehab is stopped and what the coach reads meanwhile, "" where it is not."""
    if not line.stopped or not coach:
        return line.stopped
    said = _("{why} Coach reads: {coach}. Ctrl+B states it.")
    return said.format(why=line.stopped, coach=coach)


def in_short(response: MorningResponse) -> str:
    """Return what is noted of a morning: "pain 2, no painkiller"."""
    answers = {True: _("painkiller"), False: _("no painkiller"), None: ""}
    parts = (symptom_words(response.symptom), answers[response.painkiller])
    return ", ".join(part for part in parts if part)
