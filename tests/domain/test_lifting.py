"""What lifts a stop, and what is too little to."""

from dataclasses import replace

import pytest

from teamrehab.domain.deciding import decide, situation_of
from teamrehab.domain.decision import Proposal
from teamrehab.domain.examination import Examination, Gait, Resisted
from teamrehab.domain.measures import (
    Feeling,
    SessionKind,
    Symptom,
)
from teamrehab.domain.stops import stop_reasons
from tests.builders import day, history
from tests.domain.evenings import (
    CALF,
    looked,
    morning,
    moved,
    passing,
    raises,
    session,
)

TODAY = 20
EXAMINED = Examination(
    examination_id="x", case_id="c1", athlete_id="a1", on=day(TODAY), walking=Gait.CLEAN
)


def stopped(*facts, protocol=CALF):
    return " ".join(stop_reasons(situation_of(history(*facts), protocol, day(TODAY))))


SHARP_LIMP = session(19, symptom=Symptom(9, Feeling.SHARP), limp=True)
LIMPED = [moved(10, 3), session(19, limp=True)]


def told_at(*told, stamps=()):
    """Return a case whose facts were noted at these hours of their day, one each."""
    made = history(*told)
    values = sorted(told, key=lambda value: value.on)
    hours = [dict(zip(map(id, told), stamps, strict=True))[id(value)] for value in values]
    facts = tuple(
        replace(
            fact, stamp=f"{fact.value.on}-{hour:02}", noted_at=fact.noted_at.replace(hour=hour)
        )
        for fact, hour in zip(made.facts, hours, strict=True)
    )
    return replace(made, facts=facts)


@pytest.mark.parametrize(
    ("sharp", "looked_at", "lifted"), [(10, 15, True), (15, 10, False), (15, 15, False)]
)
def test_an_examination_of_the_same_day_lifts_from_the_next_day_if_it_came_after(
    sharp, looked_at, lifted
):
    examined = replace(EXAMINED, on=day(19))
    told = told_at(SHARP_LIMP, examined, stamps=(sharp, looked_at))

    def stops(on):
        return " ".join(stop_reasons(situation_of(told, CALF, day(on))))

    assert stops(19)
    assert ("holds for today only" in stops(19)) is lifted
    assert bool(stops(20)) is not lifted


@pytest.mark.parametrize(
    ("found", "said"),
    [
        ({"walking": Gait.UNABLE}, "Walking or stairs not possible"),
        ({"stairs": Gait.LIMPS}, "A limp in the examination"),
        ({"resisted_bent": Resisted.UNABLE}, "Pushing against the hand not possible"),
    ],
)
def test_what_an_examination_found_not_possible_stops_past_the_first_phase(found, said):
    examined = replace(EXAMINED, **({"walking": None} | found))
    facts = [*passing(2, 20), examined]
    assert said in stopped(moved(10, 2), *facts)
    assert decide(history(moved(10, 2), *facts), CALF, day(TODAY)).proposal is (
        Proposal.STOP_AND_REVIEW
    )
    assert stopped(*facts) == ""


def test_walking_with_a_limp_seen_in_a_test_stops_past_the_first_phase():
    seen = looked(20, walks_clean=False)
    assert "Does not walk" in stopped(moved(10, 2), seen)
    assert stopped(seen) == ""
    assert "Nothing goes up" in " ".join(decide(history(seen), CALF, day(TODAY)).held)


def test_the_newest_examination_counts_and_of_its_versions_the_worse():
    unable = replace(EXAMINED, examination_id="y", walking=Gait.UNABLE)
    first = replace(EXAMINED, on=day(18))
    sharp = session(17, symptom=Symptom(9, Feeling.SHARP))
    assert stopped(sharp, first) == ""
    assert "Day 17" in stopped(sharp, first, unable)
    assert "did not find the leg fit" in stopped(sharp, first, unable)
    assert "Day 17" in stopped(sharp, EXAMINED, replace(unable, examination_id="x"))


def test_of_two_versions_the_one_under_a_painkiller_lifts_nothing():
    calm = raises(20)
    told = history(SHARP_LIMP, calm, replace(calm, painkiller=True))
    two = tuple(replace(f, versions=2) if f.value.on == day(20) else f for f in told.facts)
    found = stop_reasons(situation_of(replace(told, facts=two), CALF, day(TODAY)))
    assert "Day 19" in " ".join(found)


def test_a_painkiller_of_the_evening_before_lifts_nothing_unless_it_was_asked_again():
    bad = replace(morning(18, 6), painkiller=False)
    evening = session(19, symptom=None, painkiller=True)
    assert "Day 18" in stopped(bad, evening, morning(20))
    assert stopped(bad, evening, replace(morning(20), painkiller=False)) == ""


BAD_TWICE = [
    moved(7, 2),
    morning(16),
    session(16, SessionKind.REHAB),
    morning(17, 2),
    session(18, SessionKind.REHAB),
    morning(19, 3),
]


def test_two_bad_mornings_in_a_row_stop_until_the_leg_was_found_fit():
    assert "Two mornings in a row" in stopped(*BAD_TWICE)
    assert "Two mornings in a row" in stopped(
        *BAD_TWICE, replace(EXAMINED, walking=Gait.UNABLE)
    )
    assert stopped(*BAD_TWICE, EXAMINED) == ""
    good = [session(19, SessionKind.REHAB), morning(20)]
    assert stopped(*BAD_TWICE, *good) == ""
