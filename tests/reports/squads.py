"""Squads to write sheets of: a realistic one, and any size of it."""

from datetime import date, datetime, timedelta
from typing import Any

from teamrehab.domain.athletes import Athlete, Team
from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    Activity,
    AvailabilityStated,
    Limit,
    Match,
    Training,
)
from teamrehab.domain.days import Fixture
from teamrehab.domain.estimates import Estimate, NoEstimate
from teamrehab.domain.history import History, Squad
from teamrehab.domain.injuries import Case, Diagnosis, ReturnDecision
from teamrehab.reports.review import squad_rows
from tests.builders import history

MONDAY = date(2026, 12, 14)
NOW = datetime(2026, 12, 14, 8, 30)  # noqa: DTZ001  the club's wall time
MARKER = "SECRETMARK"
"""Stands in every clinical field; a sheet that holds it has leaked."""

NAMES = (
    ("Sam", "Okafor"), ("Łukasz", "Wiśniewski"), ("Çağatay", "Öztürk"), ("Nguyễn", "Thị Hạnh"),
    ("Γιώργος", "Παππάς"), ("Дмитрий", "Соколов"), ("محمد", "الأحمد"), ("נועם", "לוי"),
    ("Mateus", "da Conceição Albuquerque-Vasconcelos"), ("Jonas", "Lindqvist"),
    ("Jonah", "Lindquist"), ("Aoife", "Ní Bhriain"), ("Tane", "Ngata"), ("Kwame", "Adjei"),
    ("Luca", "Ferrigno"), ("Iker", "Zubiri"), ("Étienne", "Lacombe"), ("Björn", "Þórsson"),
    ("Milan", "Đukić"), ("Ondřej", "Křížek"), ("Emre", "Işık"), ("Joaquín", "Peñalver"),
    ("Noah", "Vermeer"), ("Ravi", "Menon"), ("Theo", "Grantham"), ("Ayo", "Balogun"),
    ("Felix", "Stürmer"), ("Marek", "Novák"), ("Olu", "Adeyemi"), ("Ben", "Hargrove"),
)  # fmt: skip

FIXTURES = (
    Fixture(fixture_id="m0", on=MONDAY - timedelta(days=2), opponent="Quarry Town"),
    Fixture(
        fixture_id="m1",
        on=MONDAY + timedelta(days=5),
        opponent="Harbour United",
        kick_off=datetime(2026, 12, 19, 15),  # noqa: DTZ001
    ),
    Fixture(fixture_id="m2", on=date(2026, 12, 27), opponent="Mill Lane Athletic", home=False),
    Fixture(fixture_id="m3", on=date(2027, 1, 3), opponent="Northgate"),
)


def people(count: int) -> tuple[Athlete, ...]:
    """Return so many athletes, names from many languages, then numbered ones."""
    spelled = [*NAMES, *((f"Ola{n}", "Nordby") for n in range(len(NAMES), count))]
    return tuple(
        Athlete(
            athlete_id=f"a{n}",
            first_name=first,
            surname=last,
            number=n,
            born=date(2001, 3, 1),
        )
        for n, (first, last) in enumerate(spelled[:count], start=1)
    )


def estimate(first: int, last: int, today: date = MONDAY) -> Estimate:
    """Return an estimate spread evenly from ``first`` to ``last`` days ahead."""
    step = 1 / (last - first + 1)
    cdf = tuple(min(max((n - first + 1) * step, 0.0), 1.0) for n in range(1, 120))
    return Estimate(today=today, cdf=cdf, club_cases=12)


def hurt(who: Athlete, days_ago: int, *facts: object, **changes: object) -> History:
    """Return an open case full of clinical words, with a statement and more facts."""
    onset = MONDAY - timedelta(days=days_ago)
    case_id = f"c-{who.athlete_id}"
    ids: dict[str, Any] = {"case_id": case_id, "athlete_id": who.athlete_id, "on": onset}
    case = Case(**ids, what=f"{MARKER} felt a pop", area=f"{MARKER} area")
    diagnosis = Diagnosis(**ids, injury=MARKER, text=f"{MARKER} soleus tear", muscle=MARKER)
    said = AvailabilityStated(**(ids | stated(**changes)))
    return history(diagnosis, said, *facts, of=case, by=who)


def stated(**changes: object) -> dict[str, Any]:
    """Return the fields of a statement: out, unless changed."""
    return {"training": Training.NONE, "match": Match.NOT_AVAILABLE} | changes


def limited(who: Athlete, **changes: object) -> History:
    """Return a case that trains with limits."""
    limits = (
        Limit(Activity.PACE, 80),
        Limit(Activity.CONTACT),
        Limit(Activity.STRIKE_OR_THROW),
        Limit(Activity.MINUTES, 60),
    )
    fields: dict[str, Any] = {"training": Training.WITH_LIMITS, "limits": limits}
    return hurt(who, 20, **(fields | changes))


def club(count: int = 30, **changes: object) -> Squad:
    """Return a squad with four training with limits, four out, one assessed, two away."""
    who = people(max(count, len(NAMES)))
    wednesday = datetime(2026, 12, 16, 12)  # noqa: DTZ001
    decided = ReturnDecision(
        case_id="c-a8", athlete_id="a8", on=MONDAY, not_before=date(2026, 12, 28)
    )
    cases = (
        limited(who[0], until=MONDAY + timedelta(days=3)),
        limited(who[2], match=Match.LIMITED, match_minutes=30, match_role="off the bench"),
        limited(who[4], match=Match.UNDECIDED, next_update=datetime(2026, 12, 18, 11)),  # noqa: DTZ001
        limited(who[8], limits=(Limit(Activity.SPRINT), Limit(Activity.JUMP))),
        hurt(who[6], 9, next_update=wednesday),
        hurt(who[7], 30, decided),
        hurt(who[10], 14),
        hurt(who[11], 1, next_update=wednesday),
        hurt(who[12], 40, training=Training.FULL),
    )
    away = {
        "a14": (AbsenceReason.NATIONAL_TEAM, MONDAY + timedelta(days=6)),
        "a15": (AbsenceReason.PERSONAL, None),
    }
    absences = tuple(
        Absence(absence_id=f"w-{one}", athlete_id=one, on=MONDAY, reason=reason, until=until)
        for one, (reason, until) in away.items()
    )
    values: dict[str, Any] = {
        "day": MONDAY,
        "team": Team(name="Harbour Rovers", zone="Europe/Lisbon"),
        "athletes": people(count),
        "open_cases": cases,
        "absences": absences,
        "fixtures": FIXTURES,
    }
    return Squad(**(values | changes))


ESTIMATES: dict[str, Estimate | NoEstimate] = {
    "c-a1": estimate(1, 8),
    "c-a5": estimate(2, 9),
    "c-a9": estimate(6, 20),
    "c-a7": estimate(3, 24),
    "c-a8": estimate(10, 40),
    "c-a11": estimate(18, 60),
    "c-a12": NoEstimate.TOO_YOUNG,
    "c-a13": estimate(1, 6),
}


def rows_of(squad: Squad, estimates=ESTIMATES):
    """Return the squad's rows without protocols."""
    return squad_rows(squad, {}, {}, estimates, squad.day)
