"""Decisions of cases with a session and a morning a day: they grow with the days, no more."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from teamrehab.domain.athletes import Team
from teamrehab.domain.deciding import decide
from teamrehab.domain.history import History, Squad
from teamrehab.domain.injuries import ProtocolChosen
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import Done, SessionKind
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.reports.proposing import proposals
from teamrehab.reports.review import squad_rows
from tests.benchmarks.figures import Figure, compare
from tests.builders import day, history
from tests.domain.evenings import CALF, bent, morning, moved, raises, session

PASSES = 200
"""As many bare passes over a case, facts of the day put in order, as a decision may cost."""


def figures() -> Iterator[Figure]:
    """Yield what a decision costs, how it grows with the days, and an evening of ten."""
    short, long = noted(15), noted(30)
    yield compare(
        f"decide, 30 days with a morning each, {PASSES} bare passes",
        lambda: decide(long, CALF, day(30)),
        lambda: [long.as_of(day(30)) for _nth in range(PASSES)],
        bound=1.5,
    )
    yield compare(
        "decide, 30 days with a morning each, the same with 15",
        lambda: decide(long, CALF, day(30)),
        lambda: decide(short, CALF, day(15)),
        bound=2.6,
    )
    yield compare(
        "levels proposed, 30 days with a morning each, the same with 15",
        lambda: level_proposals(long, CALF, day(30)),
        lambda: level_proposals(short, CALF, day(15)),
        bound=2.6,
    )
    yield compare(
        "proposals of ten athletes, ten decisions and levels of one",
        lambda: evening_of(10, long),
        lambda: [
            (decide(long, CALF, day(30)), level_proposals(long, CALF, day(30)))
            for _nth in range(10)
        ],
        bound=2.0,
        rounds=7,
    )


def noted(days: int) -> History:
    """Return a case with a session and a morning every day and tests every third."""
    chosen = ProtocolChosen(
        case_id="c1",
        athlete_id="a1",
        on=day(0),
        protocol=CALF.key,
        version=CALF.version,
    )
    facts: list[Any] = [chosen, moved(1, 2)]
    for on in range(1, days + 1):
        more: dict[str, Any] = {"done": Done.AS_PLANNED, "limp": False}
        facts += [morning(on), session(on, SessionKind.REHAB, **more)]
        if on % 3 == 0:
            facts += [raises(on, 12, 30), bent(on, 12, 30)]
    return history(*facts)


def evening_of(count: int, known: History) -> object:
    """Return what is proposed for so many athletes with the same course."""
    cases = tuple(_another(known, f"x{number}") for number in range(count))
    athletes = tuple(one.athlete for one in cases)
    team = Team(name="Harbour Rovers")
    squad = Squad(day=day(30), team=team, athletes=athletes, open_cases=cases)
    protocols, catalogue = load_protocols(), injury_catalogue()
    rows = squad_rows(squad, {}, catalogue, {}, day(30))
    return proposals(squad, protocols, catalogue, rows, day(30))


def _another(known: History, name: str) -> History:
    ids: dict[str, Any] = {"case_id": name, "athlete_id": name}
    facts = tuple(replace(fact, value=replace(fact.value, **ids)) for fact in known.facts)
    athlete = replace(known.athlete, athlete_id=name)
    return replace(known, athlete=athlete, case=replace(known.case, **ids), facts=facts)
