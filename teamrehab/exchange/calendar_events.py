"""The events of an iCalendar file (RFC 5545), each told apart and checked before it is used.

A calendar may repeat an event every second for ever, step by nothing, or name a time zone
nobody knows; such events are named and left out before anything counts their days.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from teamrehab.domain.plausibility import Implausible
from teamrehab.exchange.cells import RefusedCellError, fit_text, refused
from teamrehab.exchange.problems import RowProblem, UnreadableFileError
from teamrehab.language import _

if TYPE_CHECKING:
    from icalendar import Event

EVENTS = 10_000
_REPEATS = {"DAILY", "WEEKLY", "MONTHLY", "YEARLY"}
_RULE_PARTS = {"FREQ", "INTERVAL", "COUNT", "UNTIL", "BYDAY", "BYMONTH", "WKST"}
_KEPT = ("UID", "DTSTART", "RRULE", "RDATE", "EXDATE", "RECURRENCE-ID")


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarEvent:
    """One event of the file: ``line`` is where it begins in it, ``plain`` says when it is."""

    line: int
    uid: str
    starts: date
    summary: str
    sequence: int
    cancelled: bool
    repeats: bool
    one_of_many: str
    plain: "Event"


def events_of(text: str) -> Iterator[CalendarEvent | RowProblem]:
    """Yield events, or why one could not be read; raise UnreadableFileError."""
    lines = [n for n, line in enumerate(text.splitlines(), 1) if _begins_event(line)]
    if len(lines) > EVENTS:
        sentence = _("The calendar has {count} events; at most {most} are read.")
        raise UnreadableFileError(sentence.format(count=len(lines), most=EVENTS))
    calendar = _parsed(text)
    for line, event in zip(lines, calendar.walk("VEVENT"), strict=False):
        try:
            yield _event(line, event, whole=str(calendar.get("METHOD", "")).upper() == "CANCEL")
        except RefusedCellError as refusal:
            yield RowProblem(line=line, column=refusal.what.field, what=refusal.what)


def _begins_event(line: str) -> bool:
    return line.strip().upper() == "BEGIN:VEVENT"


def _parsed(text: str) -> Any:
    from icalendar import Calendar

    try:
        return Calendar.from_ical(text)
    except (ValueError, IndexError, KeyError) as damage:
        sentence = _(
            "This is not an iCalendar file, or it is cut off. Save the calendar again."
        )
        raise UnreadableFileError(sentence) from damage


def _event(line: int, event: Any, *, whole: bool) -> CalendarEvent:
    from icalendar import Event

    broken = dict(event.errors)
    for name in ("DTSTART", "RRULE", "RDATE", "EXDATE", "RECURRENCE-ID", "SEQUENCE"):
        if name in broken:
            raise _unread(name, event.get(name, ""))
    uid = fit_text("UID", str(event.get("UID", "")))
    if not uid:
        raise _unread(
            "UID", "", _("a match needs an identity, so that changes can be followed")
        )
    _check_rule(event.get("RRULE"))
    plain = Event()
    for name in _KEPT:
        if name in event:
            plain[name] = event[name]
    return CalendarEvent(
        line=line,
        uid=uid,
        starts=_start(event),
        summary=fit_text("SUMMARY", str(event.get("SUMMARY", ""))),
        sequence=int(event.get("SEQUENCE", 0)),
        cancelled=whole or str(event.get("STATUS", "")).upper() == "CANCELLED",
        repeats="RRULE" in event or "RDATE" in event,
        one_of_many=_moved_from(event),
        plain=plain,
    )


def _moved_from(event: Any) -> str:
    return named_day(event["RECURRENCE-ID"].dt) if "RECURRENCE-ID" in event else ""


def named_day(start: date) -> str:
    """Return the same text for the same instant, in whatever zone it was written."""
    if isinstance(start, datetime) and start.tzinfo is not None:
        return start.astimezone(UTC).isoformat()
    return start.isoformat()


def _unread(name: str, value: object, why: str = "") -> RefusedCellError:
    return refused(
        name,
        str(value),
        why or _("could not be read"),
        _("Correct the event in the calendar, or add the match by hand."),
    )


def _start(event: Any) -> date:
    """Return when it starts; refuse no day, another age, a time zone nobody knows."""
    start = event.get("DTSTART")
    when = getattr(start, "dt", None)
    if not isinstance(when, date):
        raise _unread("DTSTART", "" if start is None else start)
    if not 1990 <= when.year <= 2100:
        raise _unread("DTSTART", when, _("the year must lie between 1990 and 2100"))
    zone = start.params.get("TZID") if start is not None else None
    if zone and isinstance(when, datetime) and when.tzinfo is None:
        raise _unread("DTSTART", zone, _("this time zone is not known"))
    return when


def _check_rule(rule: object) -> None:
    """Refuse rules that no fixture list needs and that could repeat without bound."""
    if rule is None:
        return
    if not isinstance(rule, Mapping):
        raise _unread("RRULE", str(rule), _("more than one rule in an event is not read"))
    shown = getattr(rule, "to_ical", lambda: b"")().decode()
    every = str(rule.get("FREQ", [""])[0]).upper()
    if every not in _REPEATS or not set(rule) <= _RULE_PARTS:
        raise _unread("RRULE", shown, _("matches repeat by days, weeks, months or years"))
    steps = [rule.get(name, [1])[0] for name in ("INTERVAL", "COUNT")]
    if not all(1 <= int(step) <= 1_000 for step in steps):
        raise _unread("RRULE", shown, _("steps and counts must lie between 1 and 1000"))


def local_start(when: date, zone: str) -> datetime | None:
    """Return the club's wall time of a start; None for a match without a kick-off time.

    A time without a zone is meant in the club's own (RFC 5545 section 3.3.5, form 1).
    """
    if not isinstance(when, datetime):
        return None
    club = ZoneInfo(zone)
    return when.replace(tzinfo=club) if when.tzinfo is None else when.astimezone(club)


def too_many(event: CalendarEvent, most: int) -> RowProblem:
    """Return that an event repeats more often than is taken in."""
    what = Implausible(
        field="RRULE",
        value=event.summary,
        allowed=_("at most {most} matches are imported").format(most=most),
        remedy=_("Shorten the calendar."),
    )
    return RowProblem(line=event.line, column="RRULE", what=what)
