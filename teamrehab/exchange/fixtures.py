"""A fixture list from iCalendar: matches of the season, with what could not be read named."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import islice
from pathlib import Path

from teamrehab.domain.athletes import Team
from teamrehab.domain.days import Fixture, club_day
from teamrehab.domain.plausibility import Implausible
from teamrehab.exchange.calendar_events import (
    CalendarEvent,
    events_of,
    local_start,
    named_day,
    too_many,
)
from teamrehab.exchange.files import MEGABYTE, contents
from teamrehab.exchange.opponents import opponent_in
from teamrehab.exchange.problems import RowProblem
from teamrehab.exchange.texts import decoded
from teamrehab.language import _

AT_MOST = 5 * MEGABYTE
FIXTURES = 2_000
"""Most matches taken in from one calendar: a bound, far above any season."""
SEASON = timedelta(days=366)
"""A season lies within a year of any of its days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FixturesPreview:
    """What a calendar holds: matches within a year of today, problems, and how many beyond."""

    file: str
    fixtures: tuple[Fixture, ...]
    problems: tuple[RowProblem, ...]
    outside: int = 0


Check = Callable[[str], tuple[str, ...]]
"""Returns the words of a text that must not be read by everybody who reads fixtures."""


def preview_fixtures(
    path: Path,
    team: Team,
    today: date,
    *,
    within: timedelta = SEASON,
    unfit: Check = lambda _text: (),
) -> FixturesPreview:
    """Return the matches of an .ics file, by the club's days; raise UnreadableFileError.

    ``within`` is how far before and after today a match may lie. An event that names no
    opponent, or in whose opponent ``unfit`` finds words, is named and left out: coaches read
    who is played.
    """
    read = list(events_of(decoded(contents(path, AT_MOST))))
    problems = [one for one in read if isinstance(one, RowProblem)]
    newest = _newest(one for one in read if isinstance(one, CalendarEvent))
    kept_out = {problem.line: problem for problem in _kept_out(newest, team, unfit)}
    problems += [
        kept_out[e.line]
        for e in newest
        if e.line in kept_out and (e.repeats or abs(_day(e.starts, team) - today) <= within)
    ]
    newest = [e for e in newest if e.line not in kept_out]
    single = [e for e in newest if not (e.repeats or e.one_of_many)]
    fixtures = [_fixture(e, e.uid, e.starts, team) for e in single]
    near = [f for f in fixtures if abs(f.on - today) <= within]
    for found in _repeated(
        [e for e in newest if e not in single], team, (today - within, today + within)
    ):
        if isinstance(found, RowProblem):
            problems.append(found)
        else:
            near.append(found)
    problems += [too_many(e, FIXTURES) for e in newest[-1:] if len(near) > FIXTURES]
    kept = sorted(near[:FIXTURES], key=lambda f: (f.on, f.fixture_id))
    return FixturesPreview(
        file=path.name,
        fixtures=tuple(kept),
        problems=tuple(sorted(problems, key=lambda p: p.line)),
        outside=len(fixtures) - sum(abs(f.on - today) <= within for f in fixtures),
    )


def _newest(events: Iterable[CalendarEvent]) -> list[CalendarEvent]:
    """Keep the highest revision of every event; of equal ones the later in the file."""
    kept: dict[tuple[str, str], CalendarEvent] = {}
    for event in events:
        key = event.uid, event.one_of_many
        if key not in kept or event.sequence >= kept[key].sequence:
            kept[key] = event
    return list(kept.values())


def _kept_out(
    events: Iterable[CalendarEvent], team: Team, unfit: Check
) -> Iterator[RowProblem]:
    """Yield why events are left out: not for everybody's eyes, or not a match."""
    for event in events:
        found = opponent_in(event.summary, team.name)
        if words := unfit(found[0] if found else event.summary):
            yield RowProblem(line=event.line, column="SUMMARY", what=_unfit(words))
        elif found is None:
            yield RowProblem(line=event.line, column="SUMMARY", what=_no_match(event, team))


def _unfit(words: Sequence[str]) -> Implausible:
    return Implausible(
        field="SUMMARY",
        value=", ".join(words),
        allowed=_("coaches read the opponent, and this tells something medical"),
        remedy=_("Name only the two teams in the calendar, and read it again."),
    )


def _no_match(event: CalendarEvent, team: Team) -> Implausible:
    remedy = _(
        "If it is a match, name both teams in the calendar, as in {example}, and read it again."
    )
    example = _('"{team} v Opponent"').format(team=team.name or _("Home"))
    return Implausible(
        field="SUMMARY",
        value=event.summary or _("nothing written"),
        allowed=_("not read as a match: no opponent is named"),
        remedy=remedy.format(example=example),
    )


def _repeated(
    events: Sequence[CalendarEvent], team: Team, window: tuple[date, date]
) -> Iterator[Fixture | RowProblem]:
    """Yield the days of repeating events, series by series, each series bounded."""
    for uid in dict.fromkeys(event.uid for event in events):
        series = [event for event in events if event.uid == uid]
        found = list(islice(_days_of(series, window), FIXTURES + 1))
        yield from (_fixture(e, name, when, team) for e, name, when in found[:FIXTURES])
        if len(found) > FIXTURES:
            yield too_many(series[0], FIXTURES)


def _days_of(
    series: Sequence[CalendarEvent], window: tuple[date, date]
) -> Iterator[tuple[CalendarEvent, str, date]]:
    """Yield (event, fixture id, start) for each day of one series in the window."""
    import recurring_ical_events
    from icalendar import Calendar

    calendar = Calendar()
    for event in series:
        calendar.add_component(event.plain)
    from_day, to_day = (datetime.combine(day, time()) for day in window)
    moved = {event.one_of_many: event for event in series}
    for day in recurring_ical_events.of(calendar).between(from_day, to_day):
        original = day["RECURRENCE-ID"].dt
        event = moved.get(named_day(original), series[0])
        yield event, f"{event.uid}/{original:%Y-%m-%d}", day["DTSTART"].dt


def _day(when: date, team: Team) -> date:
    """Return the club's day of a start."""
    kick_off = local_start(when, team.zone)
    return when if kick_off is None else club_day(kick_off)


def _fixture(event: CalendarEvent, fixture_id: str, when: date, team: Team) -> Fixture:
    kick_off = local_start(when, team.zone)
    opponent, home = opponent_in(event.summary, team.name) or (event.summary, True)
    return Fixture(
        fixture_id=fixture_id,
        on=_day(when, team),
        opponent=opponent,
        kick_off=kick_off,
        home=home,
        revision=event.sequence,
        cancelled=event.cancelled,
    )
