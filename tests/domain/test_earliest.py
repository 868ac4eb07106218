"""The earliest day is a bound: played out day by day with everything passing, it is met."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.deciding import decide
from teamrehab.domain.decision import Proposal
from teamrehab.domain.earliest import earliest_leaving
from teamrehab.domain.guidance import KindOfWork
from teamrehab.domain.ladders import open_ladders
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import (
    Done,
    HeelRaiseTest,
    MorningResponse,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.protocol import Criterion, Ladder, Level, Protocol, Stage
from tests.builders import day, history
from tests.domain.evenings import flag, level, morning, moved, raises, session

TODAY = 20


def asks(check, **parameters):
    return Criterion(
        key=f"{check}{len(parameters)}",
        check=check,
        sentence=check,
        source="common practice",
        parameters=parameters,
    )


SESSIONS = asks("sessions_at_least", sessions=2, kind="rehab session", symptom=1)
RAISES = asks("raises_at_least", repetitions=20, legs="injured")
PLAIN = Protocol(
    key="plain",
    name="Plain",
    version="1",
    injuries=(),
    stages=(
        Stage(name="First", phase=1, exit=(asks("days_in_stage", days=3),)),
        Stage(name="Second", phase=2, entry=(RAISES,), exit=(SESSIONS,)),
        Stage(name="Third", phase=4, exit=(SESSIONS,)),
    ),
    sign_off=(asks("symptom_at_most", score=1, days=3),),
)


def rehab(on, **more):
    return session(on, SessionKind.REHAB, **more)


def earliest(*facts, on=TODAY, protocol=PLAIN, last=3):
    found = earliest_leaving(history(*facts), protocol, day(on), last=last)
    return [(leaving - day(0)).days for leaving in found]


def played_out(*facts, on=TODAY, protocol=PLAIN):
    """Return the days on which the engine proposes each next step, all of it passing."""
    left, noted = [], list(facts)
    for today in range(on, on + 40):
        kinds = {type(fact) for fact in noted if fact.on == day(today)}
        noted += [] if HeelRaiseTest in kinds else [raises(today)]
        noted += [] if SessionEntry in kinds else [rehab(today)]
        noted += [] if MorningResponse in kinds else [morning(today)]
        decision = decide(history(*noted), protocol, day(today))
        again = any(fact.on == day(today) and hasattr(fact, "stage") for fact in noted)
        if decision.proposal is Proposal.MOVE_UP and not again:
            noted.append(moved(today, decision.stage + 1))
            left.append(today)
        if decision.proposal is Proposal.READY_FOR_SIGN_OFF:
            return [*left, today]
    raise AssertionError("never ready for sign-off")


CASES = {
    "nothing noted": [],
    "first stage opened lately": [moved(TODAY - 1, 1)],
    "a test failed today": [raises(TODAY, 12, 30)],
    "a test failed the day before": [raises(TODAY - 1, 12, 30)],
    "one of two sessions done today": [moved(TODAY - 2, 2), raises(TODAY), rehab(TODAY)],
    "a session spoilt by a symptom": [moved(15, 2), rehab(19, symptom=Symptom(2))],
    "the last stage, symptom yesterday": [moved(15, 3), rehab(19, symptom=Symptom(2))],
    "a stage opened today": [moved(15, 2), rehab(18), rehab(19), moved(TODAY, 3)],
}


@pytest.mark.parametrize("facts", CASES.values(), ids=CASES.keys())
def test_the_bound_is_the_day_the_engine_itself_comes_to(facts):
    assert earliest(*facts) == played_out(*facts)


SYMPTOMS = st.integers(0, 2).map(Symptom)
STARTS = st.builds(
    lambda stage, opened, done, tested: [
        *([moved(opened, stage)] if stage > 1 else []),
        *(rehab(on, symptom=symptom) for on, symptom in done.items()),
        *(raises(on, count, 30) for on, count in tested.items()),
    ],
    st.integers(1, 3),
    st.integers(5, TODAY),
    st.dictionaries(st.integers(8, TODAY), SYMPTOMS, max_size=5),
    st.dictionaries(st.integers(8, TODAY), st.integers(15, 25), max_size=3),
)


@given(STARTS)
def test_nothing_is_ever_proposed_before_the_bound(facts):
    bound = earliest(*facts)
    if bound:
        assert all(a >= b for a, b in zip(played_out(*facts), bound, strict=True))


def test_while_rehab_is_stopped_no_day_is_named():
    assert earliest(flag(19)) == []


def test_one_more_session_asked_for_is_one_day_later():
    three = replace(SESSIONS, parameters={**SESSIONS.parameters, "sessions": 3})
    later = replace(PLAIN, stages=(*PLAIN.stages[:2], replace(PLAIN.stages[2], exit=(three,))))
    facts = [moved(15, 3)]
    assert earliest(*facts, protocol=later)[0] == earliest(*facts)[0] + 1


def climbing(work, wanted=3):
    """Return the protocol whose first gate asks for a level of a ladder of four."""
    ladder = Ladder(
        key="raise",
        name="Raise",
        stage=1,
        levels=tuple(Level(name=str(n), sets=3, dose="10") for n in range(1, 5)),
        symptom=2,
        source="common practice",
        work=work,
    )
    gate = asks("level_passed", ladder="raise", level=wanted)
    stages = (Stage(name="First", phase=1, exit=(gate,)), *PLAIN.stages[1:])
    return replace(PLAIN, ladders=(ladder,), stages=stages)


def climbed(protocol):
    """Return the day the gate is met when each open day works as planned and goes up."""
    noted: list[Any] = []
    for today in range(TODAY, TODAY + 20):
        noted.append(raises(today))
        if open_ladders(history(*noted), protocol, day(today)):
            noted.append(rehab(today, done=Done.AS_PLANNED))
        if decide(history(*noted), protocol, day(today)).proposal is Proposal.MOVE_UP:
            return today
        found = level_proposals(history(*noted), protocol, day(today))
        noted += [level(today, one.proposed, one.ladder.key) for one in found]
    raise AssertionError("never climbed")


@pytest.mark.parametrize("work", KindOfWork)
@pytest.mark.parametrize("wanted", [1, 3, 4])
def test_each_level_takes_a_session_of_its_own_and_rest_days_are_kept(work, wanted):
    protocol = climbing(work, wanted)
    assert earliest(protocol=protocol, last=1) == [climbed(protocol)]


def test_a_level_passed_today_is_not_asked_for_again():
    slow = climbing(KindOfWork.SLOW)
    done = rehab(TODAY, done=Done.AS_PLANNED)
    assert earliest(protocol=slow, last=1) == earliest(done, protocol=slow, last=1)
