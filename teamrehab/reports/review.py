"""From what stands in the casebook to the rows of the squad table. Pure: no clock, no disk."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import Availability, AvailabilityStated, Match, Training
from teamrehab.domain.combining import availability_on
from teamrehab.domain.days_lost import DaysLost, days_lost
from teamrehab.domain.deciding import decide
from teamrehab.domain.decision import Decision
from teamrehab.domain.estimates import Estimate, NoEstimate
from teamrehab.domain.history import History, Squad
from teamrehab.domain.protocol import InjuryKind, Protocol, followed
from teamrehab.reports.findings import LikelyReturn, SquadRow
from teamrehab.reports.likely import Foreseen, decided_on, foresee, likely_return
from teamrehab.reports.outlook import COMING_MATCHES, outlook
from teamrehab.reports.wording_clinical import missing_words, problem_words, side_words

__all__ = ["outlook", "squad_row", "squad_rows"]

Estimates = Mapping[str, Estimate | NoEstimate]


@dataclass(frozen=True, slots=True)
class _Known:
    """What every row is worked out from besides its own athlete."""

    squad: Squad
    protocols: Mapping[str, Protocol]
    catalogue: Mapping[str, InjuryKind]
    today: date
    estimates: Estimates = field(default_factory=dict)


def squad_rows(
    squad: Squad,
    protocols: Mapping[str, Protocol],
    catalogue: Mapping[str, InjuryKind],
    estimates: Estimates,
    today: date,
) -> tuple[SquadRow, ...]:
    """Return one row an athlete of the squad, in the squad's order.

    ``estimates`` by case id; a case that is not in it is still being worked out.
    """
    known = _Known(squad, protocols, catalogue, today, estimates)
    return tuple(_row(a, known) for a in squad.athletes if a.in_squad(today))


def squad_row(
    athlete: Athlete,
    squad: Squad,
    protocols: Mapping[str, Protocol],
    catalogue: Mapping[str, InjuryKind],
    estimates: Estimates,
) -> SquadRow:
    """Return the row of one athlete on the squad's day: what one save repaints."""
    return _row(athlete, _Known(squad, protocols, catalogue, squad.day, estimates))


def _row(athlete: Athlete, known: _Known) -> SquadRow:
    cases = known.squad.cases_of(athlete.athlete_id)
    healthy = SquadRow(
        athlete_id=athlete.athlete_id,
        number=athlete.number,
        name=athlete.name,
        surname=athlete.surname,
        position=athlete.position,
        minor=athlete.is_minor_on(known.today),
        availability=_availability(athlete, cases, known),
    )
    return _with_cases(healthy, cases, known) if cases else healthy


def _with_cases(row: SquadRow, cases: Sequence[History], known: _Known) -> SquadRow:
    """Fill in the clinical columns from the case that keeps the athlete out longest."""
    foreseen = [foresee(h, known.estimates.get(h.case.case_id), known.today) for h in cases]
    keeping_out = [f for f in foreseen if _keeps_out(f.history, known.today)]
    leading = max(keeping_out or foreseen, key=lambda f: _weight(f, known.today))
    history = leading.history
    decision = _decision(history, known)
    lost = _days_lost(history, known.today)
    return replace(
        row,
        case_id=history.case.case_id,
        other_cases=tuple(h.case.case_id for h in cases if h is not history),
        problem=_problem(history, known.catalogue),
        side=side_words(history.case.side),
        decision=decision,
        days=(known.today - history.case.on).days,
        days_lost=lost.lost,
        days_with_limits=lost.with_limits,
        missing_next=missing_words(decision),
        last_entry=history.last_entry,
        estimate=leading.estimate,
        no_estimate=leading.why_none,
        likely=_likely(leading, keeping_out, cases, known),
    )


def _keeps_out(history: History, today: date) -> bool:
    """Return whether a case by itself restricts training or matches today."""
    return availability_on(today, (history,)).medical


def _weight(foreseen: Foreseen, today: date) -> tuple[bool, date, int, int, int]:
    """Return how long a case keeps out; what is stated today decides between equals."""
    unknown, latest = foreseen.days_out
    alone = availability_on(today, (foreseen.history,))
    training = list(Training).index(alone.training)
    match = list(Match).index(alone.match)
    return unknown, latest, training, match, -foreseen.history.case.on.toordinal()


def _decision(history: History, known: _Known) -> Decision | None:
    protocol = followed(history, known.protocols).protocol
    if protocol is None:
        return None
    return decide(history, protocol, known.today, known.squad.settings)


def _problem(history: History, catalogue: Mapping[str, InjuryKind]) -> str:
    diagnosis = history.diagnosis
    return problem_words(history, catalogue.get(diagnosis.injury) if diagnosis else None)


def _likely(
    leading: Foreseen,
    keeping_out: Sequence[Foreseen],
    cases: Sequence[History],
    known: _Known,
) -> LikelyReturn | None:
    """Return the likely return; what is decided counts for cases that restrict nothing too."""
    return likely_return(
        leading,
        keeping_out,
        decided_on(known.today, cases),
        known.squad.coming(COMING_MATCHES),
        same_day=known.squad.settings.cleared_same_day,
    )


def _days_lost(history: History, today: date) -> DaysLost:
    return days_lost(history.case.on, history.of(AvailabilityStated), today)


def _availability(athlete: Athlete, cases: Sequence[History], known: _Known) -> Availability:
    absences = [a for a in known.squad.absences if a.athlete_id == athlete.athlete_id]
    return availability_on(known.today, cases, absences)
