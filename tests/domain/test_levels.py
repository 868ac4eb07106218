"""Steps on a ladder: up, stay and down, and rules that hold whatever was noted."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.injuries import LevelMoved
from teamrehab.domain.levels import (
    before_session,
    level_of,
    level_proposals,
    open_ladders,
    reached,
)
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    Feeling,
    Missed,
    SessionKind,
    SessionMissed,
    Symptom,
)
from teamrehab.domain.protocol import FormFault, Ladder, Level, Protocol, Stage
from tests.builders import day, history
from tests.domain.evenings import flag, four, morning, moved, raises, session

TODAY = 20
PUSH = Ladder(
    key="push",
    name="Push",
    stage=1,
    levels=(
        Level(name="both", sets=3, dose="15"),
        Level(name="one", sets=3, dose="15 each", stage=2),
        Level(name="one with weight", sets=2, dose="8 each", stage=2),
    ),
    symptom=3,
    source="common practice",
)
BOUNCE = replace(PUSH, key="bounce", name="Bounce", stage=2, symptom=1)
HOLD = replace(PUSH, key="hold", name="Hold", until=1)
PROTOCOL = Protocol(
    key="p",
    name="P",
    version="1",
    injuries=(),
    stages=(Stage(name="First", phase=1, symptom=2), Stage(name="Second", phase=2)),
    sign_off=(),
    ladders=(PUSH, BOUNCE, HOLD),
    faults=(FormFault(key="drop", name="Drops fast"),),
)
SECOND = moved(1, 2)


def level(number, on=10, ladder=PUSH):
    return LevelMoved(
        case_id="c1",
        athlete_id="a1",
        on=day(on),
        ladder=ladder.key,
        level=number,
        proposed=number,
    )


def did(number=1, on=TODAY, sets=3, *faults, ladder=PUSH, **more):
    """Return a rehab session in which one exercise was looked at."""
    one = ExerciseDone(exercise=ladder.key, level=number, sets=sets, faults=faults)
    return session(on, SessionKind.REHAB, **({"exercises": (one,)} | more))


def as_planned(on=TODAY, **more):
    return session(on, SessionKind.REHAB, **({"done": Done.AS_PLANNED} | more))


def answer(*facts, ladder=PUSH, on=TODAY):
    """Return (level, proposed, reason) for one ladder of a case in the second stage."""
    found = level_proposals(history(SECOND, *facts), PROTOCOL, day(on))
    by_key = {each.ladder.key: each for each in found}
    each = by_key[ladder.key]
    return each.level, each.proposed, each.reason


def test_every_set_in_good_form_within_the_symptom_allowed_proposes_the_next_level():
    level, proposed, reason = answer(did(symptom=Symptom(3)))
    assert (level, proposed) == (1, 2)
    assert "3 sets" in reason
    assert "symptom 3 (at most 3)" in reason


SHARP = Symptom(0, Feeling.SHARP)
STAYS = [
    (did(symptom=None), "No symptom was noted"),
    (did(symptom=SHARP), "Sharp symptom today"),
    (did(symptom=Symptom(4)), "4"),
    (did(limp=True), "A limp."),
    (did(painkiller=True), "Painkiller today"),
    (did(painkiller=True, symptom=None), "No symptom was noted"),
    (did(1, TODAY, 3, "drop"), "Drops fast"),
    (did(1, TODAY, 2), "2 of 3 sets"),
    (did(1, TODAY, None), "not counted"),
    (did(2), "Worked at level 2 today; level 1 is decided"),
]


@pytest.mark.parametrize(("entry", "said"), STAYS)
def test_one_thing_amiss_keeps_the_level_and_is_the_reason(entry, said):
    level, proposed, reason = answer(entry)
    assert (level, proposed) == (1, 1)
    assert said in reason


def test_a_painkiller_in_the_morning_or_in_a_test_of_the_day_keeps_the_level():
    for masked in (replace(morning(TODAY), painkiller=True), raises(TODAY, painkiller=True)):
        level, proposed, reason = answer(did(), masked)
        assert (level, proposed) == (1, 1)
        assert "Painkiller today" in reason
    assert answer(did(), replace(morning(TODAY - 1), painkiller=True))[1] == 2
    assert answer(did(), morning(TODAY))[1] == 2


def test_the_ladder_has_its_own_symptom_and_a_stage_may_allow_less():
    felt = Symptom(2)
    assert answer(did(symptom=felt))[1] == 2
    assert answer(did(ladder=BOUNCE, symptom=felt), ladder=BOUNCE)[1] == 1
    assert answer(did(ladder=BOUNCE, symptom=Symptom(1)), ladder=BOUNCE)[1] == 2
    for score, reason in [(2, "later stage"), (3, "at most 2 allowed")]:
        (found, *_rest) = level_proposals(
            history(did(symptom=Symptom(score))), PROTOCOL, day(TODAY)
        )
        assert reason in found.reason


def test_a_level_of_a_later_stage_is_not_proposed_and_one_step_is_once_it_is_open():
    early = level_proposals(history(did()), PROTOCOL, day(TODAY))
    assert [each.proposed for each in early] == [1]
    assert answer(did())[1] == 2


def test_the_last_level_is_never_left_upwards_nor_the_first_downwards():
    assert answer(level(3), did(3, TODAY, 2))[:2] == (3, 3)
    failed = answer(did(symptom=Symptom(5), on=18), did(symptom=Symptom(5)))
    assert failed[:2] == (1, 1)
    assert "the lowest" in failed[2]


FAILS = [{"symptom": Symptom(4)}, {"symptom": SHARP}, {"faults": ("drop",)}]


@pytest.mark.parametrize("before", FAILS)
@pytest.mark.parametrize("now", FAILS)
def test_two_sessions_failed_by_symptom_or_form_propose_a_level_down(before, now):
    def failed(on, faults=(), symptom=None):
        return did(2, on, 3, *faults, symptom=symptom or Symptom(0))

    assert answer(level(2), failed(18, **before), failed(TODAY, **now))[:2] == (2, 1)
    assert answer(level(2), failed(TODAY, **now))[:2] == (2, 2)
    fine = did(2, 19)
    assert answer(level(2), failed(18, **before), fine, failed(TODAY, **now))[:2] == (2, 2)


def test_fewer_sets_never_lead_down_nor_do_failures_from_before_the_level_was_decided():
    assert answer(level(2), did(2, 18, 1), did(2, TODAY, 1))[:2] == (2, 2)
    old = did(2, 8, symptom=Symptom(5))
    assert answer(level(2, 5), level(3, 7), level(2), old, did(2, symptom=Symptom(5)))[1] == 2


def test_done_as_planned_counts_for_every_open_ladder_at_the_level_decided_then():
    found = level_proposals(history(SECOND, level(2), as_planned()), PROTOCOL, day(TODAY))
    assert [(each.ladder.key, each.level, each.proposed) for each in found] == [
        ("push", 2, 2),
        ("bounce", 1, 2),
    ]
    assert "Bounce goes up first" in found[0].reason


def test_a_team_session_or_one_done_partly_says_nothing_of_what_was_not_looked_at():
    team = session(TODAY, SessionKind.TEAM_WITH_LIMITS, done=Done.AS_PLANNED)
    for entry in (team, as_planned(done=Done.PARTLY), as_planned(done=None)):
        assert level_proposals(history(SECOND, entry), PROTOCOL, day(TODAY)) == ()


def test_a_session_that_was_missed_or_of_another_day_proposes_nothing():
    missed = SessionMissed(
        session_id="m", case_id="c1", athlete_id="a1", on=day(TODAY), reason=Missed.SYMPTOM
    )
    assert level_proposals(history(SECOND, missed, did(on=19)), PROTOCOL, day(TODAY)) == ()


def test_a_level_decided_this_evening_is_not_followed_by_a_second_step():
    for entry in (did(), did(2), as_planned()):
        assert answer(entry, level(2, TODAY))[:2] == (2, 2)
    noted = history(SECOND, as_planned(), level(2, TODAY))
    assert level_of(before_session(noted, day(TODAY)), PUSH) == 1
    assert level_of(before_session(noted, day(TODAY + 1)), PUSH) == 2


def test_nothing_moves_up_while_a_red_flag_is_open_or_the_day_is_stopped():
    assert answer(did(), flag(12))[:2] == (1, 1)
    assert answer(did(), flag(12))[2].startswith("Open red flag")
    closed = flag(12, closed_on=day(13), closed_by="Dr. Name")
    assert answer(did(), closed)[1] == 2
    risen = answer(did(on=19, symptom=Symptom(0)), did(symptom=Symptom(2)))
    assert risen[:2] == (1, 1)
    assert "from 0 to 2" in risen[2]


def test_the_worst_of_two_sessions_of_a_day_counts():
    other = session(TODAY, SessionKind.TEAM_WITH_LIMITS, session_id="t", symptom=Symptom(4))
    assert answer(did(), other)[1] == 1
    assert answer(did(), replace(other, symptom=Symptom(3), limp=True))[1] == 1


def test_ladders_open_with_their_stage_and_end_with_until():
    def names(*facts):
        return [ladder.key for ladder in open_ladders(history(*facts), PROTOCOL)]

    assert names() == ["push", "hold"]
    assert names(SECOND) == ["push", "bounce"]
    assert names(moved(3, 9)) == ["push", "bounce"]


def test_the_level_is_the_one_decided_last_and_falls_with_the_stage():
    assert level_of(history(), PUSH) == 1
    assert level_of(history(SECOND, level(2), level(3, 11)), PUSH) == 3
    assert level_of(history(SECOND, level(9)), PUSH) == 3
    assert level_of(history(SECOND, level(3), moved(12, 1)), PUSH) == 1
    assert level_of(history(SECOND, level(3), moved(12, 1), moved(15, 2)), PUSH) == 1
    assert level_of(history(level(2, ladder=BOUNCE)), PUSH) == 1


def test_work_may_be_recorded_up_to_the_highest_level_ever_decided():
    assert reached(history(), PUSH) == 1
    assert reached(history(), BOUNCE) == 0
    assert reached(history(level(2, ladder=BOUNCE)), BOUNCE) == 2
    assert reached(history(SECOND, moved(4, 1)), BOUNCE) == 1
    assert reached(history(SECOND, level(3), level(1, 12)), PUSH) == 3


days = st.integers(TODAY - 6, TODAY)
symptoms = st.one_of(
    st.none(), st.builds(Symptom, st.integers(0, 5), st.sampled_from([*Feeling] * 2))
)
exercises = st.builds(
    ExerciseDone,
    exercise=st.sampled_from(["push", "bounce"]),
    level=st.integers(1, 4),
    sets=st.one_of(st.none(), st.integers(1, 3)),
    faults=st.sampled_from([(), (), ("drop",)]),
)
entries = st.builds(
    session,
    days,
    st.sampled_from([SessionKind.REHAB, SessionKind.REHAB, SessionKind.TEAM_FULL]),
    symptom=symptoms,
    limp=st.sampled_from([None, False, True]),
    painkiller=st.sampled_from([None, False, True]),
    done=st.sampled_from([None, *Done]),
    exercises=st.lists(exercises, max_size=2).map(tuple),
)
levels = st.builds(
    level, st.integers(1, 4), st.integers(2, TODAY), st.sampled_from([PUSH, BOUNCE])
)
stages = st.builds(moved, st.integers(0, TODAY), st.sampled_from([1, 2, 2]))
mornings = st.builds(morning, days, st.integers(0, 5), st.sampled_from([*Feeling] * 2))
answers = st.builds(four, days)
courses = st.lists(
    st.one_of(entries, entries, mornings, answers, levels, stages), min_size=1, max_size=10
)


@given(facts=courses, data=st.data())
def test_a_painkiller_never_yields_a_higher_level(facts, data):
    index = data.draw(st.integers(0, len(facts) - 1))
    if not hasattr(facts[index], "painkiller"):
        return
    under = replace(facts[index], painkiller=True)
    told = history(*facts)
    changed = tuple(
        replace(fact, value=under) if fact.value is facts[index] else fact
        for fact in told.facts
    )
    before = level_proposals(told, PROTOCOL, day(TODAY))
    after = level_proposals(replace(told, facts=changed), PROTOCOL, day(TODAY))
    assert [each.ladder for each in before] == [each.ladder for each in after]
    for one, other in zip(before, after, strict=True):
        assert other.proposed <= one.proposed


@given(facts=courses, data=st.data())
def test_a_higher_symptom_today_never_yields_a_higher_level(facts, data):
    today = [
        i for i, f in enumerate(facts) if getattr(f, "symptom", None) and f.on == day(TODAY)
    ]
    if not today:
        return
    index = data.draw(st.sampled_from(today))
    felt = facts[index].symptom
    worse = replace(felt, score=felt.score + data.draw(st.integers(1, 5)))
    more = replace(facts[index], symptom=worse)
    told = history(*facts)
    changed = tuple(
        replace(fact, value=more) if fact.value is facts[index] else fact for fact in told.facts
    )
    before = level_proposals(told, PROTOCOL, day(TODAY))
    after = level_proposals(replace(told, facts=changed), PROTOCOL, day(TODAY))
    assert [each.ladder for each in before] == [each.ladder for each in after]
    for one, other in zip(before, after, strict=True):
        assert other.proposed <= one.proposed


@given(facts=courses, shuffle=st.randoms(use_true_random=False))
def test_the_same_facts_in_another_order_give_the_same_proposals(facts, shuffle):
    ordered = history(*facts)
    mixed = list(ordered.facts)
    shuffle.shuffle(mixed)
    again = level_proposals(replace(ordered, facts=tuple(mixed)), PROTOCOL, day(TODAY))
    assert again == level_proposals(ordered, PROTOCOL, day(TODAY))


@given(facts=courses)
def test_a_proposal_is_one_step_at_most_within_the_ladder_and_says_why(facts):
    for each in level_proposals(history(*facts), PROTOCOL, day(TODAY)):
        assert abs(each.proposed - each.level) <= 1
        assert 1 <= each.proposed <= len(each.ladder.levels)
        assert each.reason.strip().endswith(".")
        assert "{" not in each.reason


@given(facts=courses)
def test_accepting_a_proposal_leaves_nothing_to_accept_the_same_evening(facts):
    told = history(*facts)
    for each in level_proposals(told, PROTOCOL, day(TODAY)):
        accepted = level(each.proposed, TODAY, each.ladder)
        stands = history(*(fact.value for fact in told.facts), accepted)
        again = level_proposals(stands, PROTOCOL, day(TODAY))
        same = [a for a in again if a.ladder == each.ladder]
        assert [a.proposed for a in same] in ([], [level_of(stands, each.ladder)])


@given(facts=courses)
def test_nothing_moves_up_past_an_open_red_flag(facts):
    for each in level_proposals(history(*facts, flag(2)), PROTOCOL, day(TODAY)):
        assert each.proposed <= each.level
