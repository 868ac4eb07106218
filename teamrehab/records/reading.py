"""Histories and the squad, put together from the facts that stand."""

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any, TypeVar

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.domain.athletes import Athlete, StaffMember, Team
from teamrehab.domain.availability import Absence
from teamrehab.domain.days import Fixture
from teamrehab.domain.history import HEALTHY_FOR, History, Squad, Standing, Unreadable
from teamrehab.domain.injuries import Case, ProtocolAdopted
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.sheets import Disclosed, SheetIssued
from teamrehab.language import _
from teamrehab.records.heads import Head, heads, newest_per_slot, standing
from teamrehab.records.kinds import BY_SHAPE, COURSE, WITHDRAWN

T = TypeVar("T")
_FIXTURES_BACK = timedelta(days=14)

_OPEN = """
SELECT f.case_id FROM fact f
WHERE f.kind = 'case' AND f.local_date <= :day AND (f.case_id NOT IN (
    SELECT c.case_id FROM fact c WHERE c.kind = 'case_closed' AND c.local_date <= :day
    AND NOT EXISTS (SELECT 1 FROM supersession s WHERE s.parent = c.id))
    OR f.case_id IN (
    SELECT r.case_id FROM fact r LEFT JOIN body b ON b.body_hash = r.body_hash
    WHERE r.kind = 'red_flag' AND r.local_date <= :day
    AND (b.text IS NULL OR coalesce(json_extract(b.text, '$.value.closed_on'), '~') > :day
         OR trim(coalesce(json_extract(b.text, '$.value.closed_by'), '')) = '')
    AND NOT EXISTS (SELECT 1 FROM supersession s WHERE s.parent = r.id)))
AND NOT EXISTS (SELECT 1 FROM supersession s WHERE s.parent = f.id)
"""
"""Cases not closed by a day, and those with a red flag that was open on it all the same."""
_LISTED_ATHLETES = "(SELECT value FROM json_each(:athletes))"
_OPEN_CASES = text(_OPEN)
_OPEN_CASES_OF = text("\n".join((_OPEN, "AND f.athlete IN", _LISTED_ATHLETES)))
_EVER = "9999-12-31"
_CASES_OF = text("SELECT DISTINCT case_id FROM fact WHERE kind = 'case' AND athlete = :athlete")
_LAST_SHEET = text(
    "SELECT f.slot FROM fact f WHERE f.kind = 'sheet_issued' "
    "AND NOT EXISTS (SELECT 1 FROM supersession s WHERE s.parent = f.id) "
    "ORDER BY CAST(substr(f.slot, 7) AS INTEGER) DESC LIMIT 1"
)


def _name(kind: type) -> str:
    return BY_SHAPE[kind].name


def _values(rows: Sequence[Head], kind: type[T]) -> tuple[T, ...]:
    """Return the readable values of one kind, one a slot."""
    found = standing(newest_per_slot(rows))
    return tuple(fact.value for fact in found if isinstance(fact.value, kind))


def all_of(connection: Connection, kind: type[T]) -> tuple[Standing[T], ...]:
    """Return every standing fact of one kind whose body can be read, oldest first."""
    found = standing(heads(connection, "kind", [_name(kind), WITHDRAWN]))
    return tuple(fact for fact in found if isinstance(fact.value, kind))


def since(connection: Connection, kind: type[T], day: date) -> tuple[Standing[T], ...]:
    """Return every standing fact of one kind of ``day`` and after, oldest first."""
    found = standing(heads(connection, "from", [_name(kind), WITHDRAWN], day.isoformat()))
    return tuple(fact for fact in found if isinstance(fact.value, kind))


def histories(connection: Connection, case_ids: Iterable[str]) -> tuple[History, ...]:
    """Return everything that stands for these cases, by onset, without unreadable cases.

    The healthy values of their athletes and their other open cases come with them.
    """
    found = _whole(connection, case_ids)
    athletes = sorted({history.case.athlete_id for history in found})
    known = {"athletes": json.dumps(athletes), "day": _EVER}
    still_open = set(connection.execute(_OPEN_CASES_OF, known).scalars())
    others = _whole(connection, still_open - {history.case.case_id for history in found})
    known_open = [h for h in (*found, *others) if h.case.case_id in still_open]
    return _with_beside(found, known_open)


def _whole(connection: Connection, case_ids: Iterable[str]) -> tuple[History, ...]:
    """Return these cases with the healthy values of their athletes, in one question for all."""
    ids = list(case_ids)
    if not ids:
        return ()
    found = _gathered(connection, heads(connection, "case_id", ids))
    healthy = _healthy(connection, found)
    return tuple(replace(h, baseline=standing(healthy[h.case.athlete_id])) for h in found)


def _with_beside(
    found: Sequence[History], still_open: Iterable[History]
) -> tuple[History, ...]:
    """Return cases that know of the athlete's other open cases."""
    by_athlete: dict[str, list[History]] = defaultdict(list)
    for history in still_open:
        by_athlete[history.case.athlete_id].append(history)
    return tuple(
        replace(
            history,
            beside=tuple(
                other
                for other in by_athlete[history.case.athlete_id]
                if other.case.case_id != history.case.case_id
            ),
        )
        for history in found
    )


def _healthy(connection: Connection, found: Sequence[History]) -> dict[str, list[Head]]:
    """Return the tests without a case by athlete, as far back as the earliest onset asks."""
    healthy: dict[str, list[Head]] = defaultdict(list)
    if found:
        since = (found[0].case.on - HEALTHY_FOR).isoformat()
        ids = {history.case.athlete_id for history in found}
        for row in heads(connection, "healthy", ids, since):
            healthy[row.athlete].append(row)
    return healthy


def past_cases(connection: Connection) -> tuple[History, ...]:
    """Return every case with the facts of its course only, by onset."""
    return _gathered(connection, heads(connection, "course", [*COURSE, WITHDRAWN]))


def cases_of(connection: Connection, athlete_id: str) -> tuple[History, ...]:
    """Return every case of one athlete, by onset."""
    ids = connection.execute(_CASES_OF, {"athlete": athlete_id}).scalars()
    return histories(connection, list(ids))


def _gathered(connection: Connection, rows: list[Head]) -> tuple[History, ...]:
    by_case: dict[str, list[Head]] = defaultdict(list)
    for row in rows:
        by_case[row.case_id].append(row)
    athletes = _athletes(connection, {f"athlete:{row.athlete}" for row in rows})
    found = (_history(standing(own), athletes) for own in by_case.values())
    own = tuple(fact.value for fact in all_of(connection, ProtocolAdopted))
    readable = (_with_own(history, own) for history in found if history is not None)
    return tuple(sorted(readable, key=lambda history: (history.case.on, history.case.case_id)))


def _history(
    facts: tuple[Standing[Any], ...], athletes: Mapping[str, Athlete]
) -> History | None:
    cases = [fact.value for fact in facts if isinstance(fact.value, Case)]
    if not cases:
        return None
    known = athletes.get(cases[-1].athlete_id)
    return History(athlete=known or _unknown(cases[-1].athlete_id), case=cases[-1], facts=facts)


def _with_own(history: History, own: Sequence[ProtocolAdopted]) -> History:
    """Return a case with the club's own files of the protocol it follows, if there are any."""
    chosen = history.protocol
    files = tuple(one for one in own if chosen is not None and one.key == chosen.protocol)
    return replace(history, own=files) if files else history


def _unknown(athlete_id: str) -> Athlete:
    """Return a stand-in for an athlete whose own entry was erased or has not arrived."""
    return Athlete(athlete_id=athlete_id, surname=_("(name not available)"), first_name="")


def _athletes(connection: Connection, slots: Iterable[str]) -> dict[str, Athlete]:
    found = _values(heads(connection, "slot", slots), Athlete)
    return {athlete.athlete_id: athlete for athlete in found}


def the_one(connection: Connection, kind: type[T], slot: str) -> T | None:
    """Return the value of a slot that holds one thing, the latest if there are versions."""
    values = _values(heads(connection, "slot", [slot]), kind)
    return values[-1] if values else None


def squad(connection: Connection, team: Team, day: date) -> Squad:
    """Return the squad on ``day``; only open cases are decoded, whatever lies behind.

    A case is open while no closing dated on or before ``day`` stands, or a red flag is open.
    """
    ids = list(connection.execute(_OPEN_CASES, {"day": day.isoformat()}).scalars())
    found = _whole(connection, ids)
    open_cases = _with_beside(found, found)
    athletes = _values(heads(connection, "kind", [_name(Athlete)]), Athlete)
    return Squad(
        day=day,
        team=team,
        athletes=tuple(athlete for athlete in athletes if athlete.in_squad(day)),
        former=tuple(a for a in athletes if a.left is not None and a.left <= day),
        open_cases=open_cases,
        absences=_running(connection, Absence, day),
        fixtures=_fixtures(connection, day),
        staff=_values(heads(connection, "kind", [_name(StaffMember)]), StaffMember),
        disclosed=_running(connection, Disclosed, day),
        last_sheet=_last_sheet(connection),
        settings=the_one(connection, ClubSettings, "settings") or ClubSettings(),
        unreadable=len(set(ids)) - len(open_cases) + sum(map(_unreadable, open_cases)),
    )


def _unreadable(history: History) -> int:
    return sum(isinstance(fact.value, Unreadable) for fact in history.facts)


D = TypeVar("D", Absence, Disclosed)


def _running(connection: Connection, kind: type[D], day: date) -> tuple[D, ...]:
    """Return what has not ended before ``day``; two versions both count."""
    rows = heads(connection, "running", [_name(kind)], day.isoformat())
    values = (fact.value for fact in standing(rows))
    return tuple(v for v in values if isinstance(v, kind) and (kind is Absence or v.on <= day))


def _fixtures(connection: Connection, day: date) -> tuple[Fixture, ...]:
    """Return the matches not cancelled from fourteen days back; the highest revision counts."""
    start = (day - _FIXTURES_BACK).isoformat()
    facts = standing(heads(connection, "from", [_name(Fixture)], start))
    values = [fact.value for fact in facts if isinstance(fact.value, Fixture)]
    newest = {f.fixture_id: f for f in sorted(values, key=lambda f: f.revision)}
    return tuple(f for f in values if newest[f.fixture_id] is f and not f.cancelled)


def _last_sheet(connection: Connection) -> SheetIssued | None:
    slot = connection.execute(_LAST_SHEET).scalar()
    return None if slot is None else the_one(connection, SheetIssued, slot)
