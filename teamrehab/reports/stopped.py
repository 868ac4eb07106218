"""Who is stopped while the coach's sheet still says that they train or play."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import Availability, Match, Training
from teamrehab.domain.combining import availability_on
from teamrehab.domain.deciding import situation_of
from teamrehab.domain.history import History, Squad
from teamrehab.domain.injuries import RedFlag
from teamrehab.domain.protocol import Protocol, followed
from teamrehab.domain.stops import stop_reasons
from teamrehab.reports.wording_closing import coach_reads

_A_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unstated:
    """One athlete who is stopped, and of whom nobody has stated yet that they do not train.

    ``case_id`` is the case that stops. ``coach`` is what the coach reads meanwhile, in a few
    words. ``misleads``: the sheet would let the athlete train or play; without it an open
    red flag already speaks there, though nobody said until when.
    """

    athlete_id: str
    case_id: str
    name: str
    surname: str
    coach: str
    misleads: bool


def stopped_unstated(squad: Squad, protocols: Mapping[str, Protocol]) -> tuple[Unstated, ...]:
    """Return who is stopped on the squad's day without a statement that says so.

    What is stated for the next day counts: a stop that was accepted begins then.
    """
    found = (
        _unstated(athlete, squad.cases_of(athlete.athlete_id), squad, protocols)
        for athlete in squad.athletes
    )
    return tuple(one for one in found if one is not None)


def misled(unstated: Sequence[Unstated]) -> tuple[str, ...]:
    """Return the names of those whom the sheet would still let train or play."""
    return tuple(one.name for one in unstated if one.misleads)


def _unstated(
    athlete: Athlete,
    cases: Sequence[History],
    squad: Squad,
    protocols: Mapping[str, Protocol],
) -> Unstated | None:
    tomorrow = squad.day + _A_DAY
    if not cases or _is_out(_stated(cases, tomorrow)):
        return None
    stopped = [case for case in cases if _stops(case, squad, protocols)]
    if not stopped:
        return None
    known = availability_on(tomorrow, cases)
    own = [case for case in stopped if not _is_out(_stated([case], tomorrow))]
    return Unstated(
        athlete_id=athlete.athlete_id,
        case_id=(own or stopped)[0].case.case_id,
        name=athlete.name,
        surname=athlete.surname,
        coach=coach_reads(known),
        misleads=not _is_out(known),
    )


def _stops(case: History, squad: Squad, protocols: Mapping[str, Protocol]) -> bool:
    protocol = followed(case, protocols).protocol
    return bool(stop_reasons(situation_of(case, protocol, squad.day, squad.settings)))


def _stated(cases: Sequence[History], day: date) -> Availability:
    """Return what was stated, without what open red flags say by themselves."""
    without = (
        replace(c, facts=tuple(f for f in c.facts if not isinstance(f.value, RedFlag)))
        for c in cases
    )
    return availability_on(day, tuple(without))


def _is_out(there: Availability) -> bool:
    """Return whether nobody could read that the athlete trains or plays."""
    plays = there.match in (Match.AVAILABLE, Match.LIMITED)
    return there.training is Training.NONE and not plays
