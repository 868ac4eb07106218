"""One athlete, one day, all causes together."""

from datetime import UTC, datetime, time
from itertools import count

from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    Activity,
    Availability,
    AvailabilityStated,
    Limit,
    Match,
    Training,
    strictest,
)
from teamrehab.domain.combining import availability_on, most_restrictive
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import CaseClosed, Clearance, RedFlag, Scope, Urgency
from tests.builders import athlete, case, day, history

_numbers = count(1)
WORST_LAST = (list(Training), list(Match))


def stated(on=0, training=Training.FULL, match=Match.AVAILABLE, **more):
    return AvailabilityStated(
        case_id="c1", athlete_id="a1", on=day(on), training=training, match=match, **more
    )


def flag(on=0, **more):
    values = {"case_id": "c1", "athlete_id": "a1", "what": "cold foot"} | more
    return RedFlag(flag_id="r1", on=day(on), urgency=Urgency.EMERGENCY, **values)


def cleared(on=0, scope=Scope.MATCH):
    return Clearance(case_id="c1", athlete_id="a1", on=day(on), scope=scope, signed_by="s2")


def absence(on, until, reason=AbsenceReason.PERSONAL):
    last = None if until is None else day(until)
    return Absence(absence_id="x", athlete_id="a1", on=day(on), reason=reason, until=last)


def test_a_healthy_athlete_is_fully_available():
    assert availability_on(day(3), []) == Availability()


def test_a_case_nobody_spoke_of_is_out_until_the_reassessment():
    again = datetime.combine(day(2), time(12))
    found = availability_on(day(1), [history(of=case(reassess_on=again))])
    assert (found.training, found.match) == (Training.NONE, Match.NOT_AVAILABLE)
    assert found.next_update == again
    assert found.medical


def test_the_newest_statement_of_a_case_counts():
    cases = [history(stated(0, Training.NONE, Match.NOT_AVAILABLE), stated(5))]
    assert availability_on(day(4), cases).training is Training.NONE
    assert availability_on(day(5), cases) == Availability()


def test_the_more_restrictive_of_two_versions_counts_and_is_said_to_be_unsettled():
    versions = tuple(
        Standing(
            fact_id=f"v{i}",
            value=value,
            author=f"s{i}",
            versions=2,
            noted_at=datetime(2026, 10, 8, 20, i, tzinfo=UTC),
        )
        for i, value in enumerate([stated(3, Training.WITH_LIMITS), stated(3)])
    )
    both = History(athlete=athlete(), case=case(), facts=versions)
    found = availability_on(day(3), [both])
    assert found.training is Training.WITH_LIMITS
    assert found.unsettled


def test_limits_are_the_union_with_the_lowest_caps():
    first = stated(
        training=Training.WITH_LIMITS,
        limits=(Limit(Activity.PACE, 70), Limit(Activity.JUMP)),
        match_minutes=60,
    )
    second = stated(
        training=Training.WITH_LIMITS,
        limits=(Limit(Activity.PACE, 80), Limit(Activity.JUMP, 3), Limit(Activity.CONTACT)),
        match=Match.LIMITED,
        match_minutes=30,
    )
    found = availability_on(day(1), [history(first), history(second)])
    assert found.limits == (
        Limit(Activity.PACE, 70),
        Limit(Activity.JUMP),
        Limit(Activity.CONTACT),
    )
    assert (found.match, found.match_minutes) == (Match.LIMITED, 30)


def test_the_latest_end_counts_and_an_open_end_has_no_date():
    def until(last):
        return history(stated(training=Training.WITH_LIMITS, until=last))

    assert availability_on(day(1), [until(day(4)), until(day(9))]).until == day(9)
    assert availability_on(day(1), [until(day(4)), until(None)]).until is None
    assert availability_on(day(1), [until(day(4)), history(stated())]).until == day(4)


def test_the_latest_next_update_counts():
    hours = [datetime.combine(day(2), time(hour)) for hour in (9, 12)]
    cases = [history(stated(next_update=hour)) for hour in hours]
    assert availability_on(day(1), cases).next_update == hours[1]


def test_an_open_red_flag_keeps_out_whatever_was_stated():
    cases = [history(stated(0), flag(1))]
    assert availability_on(day(0), cases) == Availability()
    found = availability_on(day(1), cases)
    assert (found.training, found.match) == (Training.NONE, Match.NOT_AVAILABLE)


def test_a_red_flag_stays_open_until_a_named_doctor_closes_it():
    nameless = history(stated(0), flag(1, closed_on=day(2)))
    unseen = history(stated(0), flag(1, closed_on=day(2), closed_by="\u200b "))
    named = history(stated(0), flag(1, closed_on=day(2), closed_by="s2"))
    for still_open in (nameless, unseen):
        assert availability_on(day(3), [still_open]).training is Training.NONE
        assert still_open.open_red_flags == still_open.red_flags_open_on(day(3)) != ()
    assert named.open_red_flags == named.red_flags_open_on(day(3)) == ()
    assert availability_on(day(3), [named]) == Availability()
    assert availability_on(day(1), [named]).training is Training.NONE


def hit(*facts):
    return [history(*facts, of=case(head_injury=True))]


def answers(found):
    return found.training, found.match


OUT = (Training.NONE, Match.NOT_AVAILABLE)


def test_a_head_injury_allows_nothing_that_nobody_has_signed_for():
    # steps of at least 24 hours: Br J Sports Med 2023;57:695
    said = [stated(0), stated(6)]
    trains, plays = cleared(5, Scope.TEAM_TRAINING), cleared(7)
    assert answers(availability_on(day(0), hit(*said))) == OUT
    assert answers(availability_on(day(9), hit(*said))) == OUT
    assert availability_on(day(9), hit(*said)).medical
    assert answers(availability_on(day(4), hit(*said, trains))) == OUT
    assert answers(availability_on(day(6), hit(*said, trains, plays))) == (
        Training.FULL,
        Match.NOT_AVAILABLE,
    )
    assert availability_on(day(7), hit(*said, trains, plays)) == Availability()


def test_a_head_injury_needs_whole_matches_signed_for():
    limited = cleared(3, Scope.MATCH_WITH_LIMIT)
    assert availability_on(day(4), hit(stated(3), limited)).match is Match.NOT_AVAILABLE


def test_a_head_injury_cleared_stays_out_under_an_open_red_flag_or_another_word():
    assert answers(availability_on(day(4), hit(stated(0), flag(2), cleared(3)))) == OUT
    again = stated(4, Training.NONE, Match.NOT_AVAILABLE)
    assert answers(availability_on(day(4), hit(stated(0), cleared(3), again))) == OUT


def test_a_closed_case_and_one_not_begun_do_not_count():
    closed = history(
        stated(0, Training.NONE), CaseClosed(case_id="c1", athlete_id="a1", on=day(6))
    )
    later = history(of=case(on=day(9)))
    assert availability_on(day(6), [closed, later]) == Availability()
    assert availability_on(day(5), [closed, later]).training is Training.NONE
    assert availability_on(day(9), [closed, later]).training is Training.NONE


def test_an_absence_counts_from_its_first_to_its_last_day():
    away = [absence(2, 4)]
    found = availability_on(day(4), [], away)
    assert (found.training, found.match) == (Training.NONE, Match.NOT_AVAILABLE)
    assert (found.absence, found.until, found.medical) == (
        AbsenceReason.PERSONAL,
        day(4),
        False,
    )
    assert availability_on(day(2), [], away) == found
    assert (
        availability_on(day(5), [], away) == availability_on(day(1), [], away) == Availability()
    )
    assert availability_on(day(90), [], [absence(2, None)]).training is Training.NONE


def test_of_two_absences_the_same_one_is_named_in_any_order():
    both = [absence(2, 4), absence(2, 4, AbsenceReason.SUSPENDED)]
    for order in (both, both[::-1]):
        assert availability_on(day(3), [], order).absence is AbsenceReason.SUSPENDED


def test_a_suspended_athlete_trains_but_does_not_play():
    found = availability_on(day(3), [], [absence(2, 4, AbsenceReason.SUSPENDED)])
    assert (found.training, found.match) == (Training.FULL, Match.NOT_AVAILABLE)


caps = st.none() | st.integers(1, 100)
limits = st.lists(st.builds(Limit, st.sampled_from(Activity), caps), max_size=4).map(tuple)
days = st.none() | st.integers(1, 40).map(day)
statements = st.builds(
    stated,
    on=st.integers(0, 5),
    training=st.sampled_from(Training),
    match=st.sampled_from(Match),
    limits=limits,
    until=days,
    match_minutes=st.none() | st.integers(1, 90),
    match_role=st.sampled_from(["", "bench", "second half"]),
)
flags = st.builds(flag, on=st.integers(0, 5))
clearances = st.builds(cleared, st.integers(0, 5), st.sampled_from(Scope))
onsets = st.builds(case, head_injury=st.booleans())
facts = st.lists(statements | flags | clearances, max_size=4)
cases = st.builds(lambda facts, of: history(*facts, of=of), facts, onsets)
squads = st.lists(cases, max_size=4)
away = st.builds(absence, st.integers(0, 5), st.none(), st.sampled_from(AbsenceReason))
absences = st.lists(away, max_size=2)


def restriction(found: Availability) -> tuple[int, ...]:
    """Return numbers that only grow as an answer becomes more restrictive."""
    blocked = [
        100
        - next(
            (
                -1 if x.at_most is None else x.at_most
                for x in found.limits
                if x.activity is activity
            ),
            100,
        )
        for activity in Activity
    ]
    minutes = 0 if found.match_minutes is None else 1000 - found.match_minutes
    orders = (list(Training).index(found.training), list(Match).index(found.match))
    return (*orders, minutes, *blocked)


@given(known=squads, one_more=cases, missing=absences)
def test_one_more_case_never_makes_the_answer_less_restrictive(known, one_more, missing):
    before = restriction(availability_on(day(3), known, missing))
    after = restriction(availability_on(day(3), [*known, one_more], missing))
    assert all(b <= a for b, a in zip(before, after, strict=True))


@given(noted=facts, known=squads)
def test_whatever_was_stated_a_head_injury_plays_on_a_signature_only(noted, known):
    signed = {fact.scope for fact in noted if isinstance(fact, Clearance) and fact.on <= day(3)}
    found = availability_on(day(3), [*known, *hit(*noted)])
    assert signed or found.training is Training.NONE
    assert Scope.MATCH in signed or found.match is Match.NOT_AVAILABLE


@given(known=squads, missing=absences, shuffle=st.randoms(use_true_random=False))
def test_the_order_of_causes_does_not_matter(known, missing, shuffle):
    expected = availability_on(day(3), known, missing)
    shuffle.shuffle(known)
    shuffle.shuffle(missing)
    assert availability_on(day(3), known, missing) == expected


@given(known=squads, missing=absences)
def test_saying_the_same_twice_changes_nothing(known, missing):
    found = availability_on(day(3), known, missing)
    assert availability_on(day(3), known + known, missing + missing) == found
    assert most_restrictive([found, found]) == found


@given(given=limits)
def test_of_limits_on_one_activity_the_strictest_counts_once(given):
    found = strictest(given)
    assert [limit.activity for limit in found] == [
        activity for activity in Activity if activity in {limit.activity for limit in given}
    ]
    for limit in found:
        caps = [other.at_most for other in given if other.activity is limit.activity]
        assert limit.at_most == (None if None in caps else min(caps))
