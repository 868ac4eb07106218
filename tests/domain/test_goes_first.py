"""One ladder goes up of an evening: which of those that could is first, and what it says."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.decision import Verdict
from teamrehab.domain.goes_first import asked_for, goes_first
from teamrehab.domain.guidance import KindOfWork
from teamrehab.domain.judging import whole
from teamrehab.domain.ladder_days import walk
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import Done, SessionKind
from teamrehab.domain.protocol import Criterion, Ladder, Level, Passed, Protocol, Stage
from teamrehab.protocols import load_protocols
from teamrehab.reports.wording_evening import due_words
from tests.builders import day, history
from tests.domain.evenings import CALF, before_hops, level, moved, passing, session
from tests.domain.test_deciding import decided


def asks(ladder: str, number: int) -> Criterion:
    return Criterion(
        key=f"{ladder}{number}",
        check="level_passed",
        sentence=f"{ladder} {number}",
        source="common practice",
        parameters={"ladder": ladder, "level": number},
    )


def ladder(key: str, *after: Passed, work: KindOfWork = KindOfWork.SLOW) -> Ladder:
    """Return three levels; what comes ``after`` holds the second one back."""
    steps = [Level(name=f"{key} {n}", sets=3, dose="5 repetitions") for n in (1, 2, 3)]
    steps[1] = replace(steps[1], after=after)
    return Ladder(
        key=key, name=key, stage=1, levels=tuple(steps), symptom=2, source="x", work=work
    )


def protocol(*ladders: Ladder, gate: tuple[Criterion, ...] = ()) -> Protocol:
    never = asks("nothing", 1)
    return Protocol(
        key="p",
        name="P",
        version="1",
        injuries=("other",),
        stages=(
            Stage(name="One", phase=1, exit=(never,)),
            Stage(name="Two", phase=2, entry=gate, exit=(never,)),
        ),
        sign_off=(),
        ladders=ladders,
    )


def first(plan: Protocol, *facts: Any) -> str:
    return goes_first(walk(history(*facts), plan), list(plan.ladders)).key


def done(on: int) -> Any:
    calm: dict[str, Any] = {"limp": False, "done": Done.AS_PLANNED}
    return session(on, SessionKind.REHAB, **calm)


def test_what_waited_longest_goes_first_and_of_those_the_protocols_first():
    plan = protocol(ladder("a"), ladder("b"))
    assert first(plan) == "a"
    assert first(plan, level(3, 1, "a")) == "b"


def test_work_that_rests_every_second_day_goes_before_work_that_can_go_up_on_any():
    plan = protocol(ladder("a"), ladder("b", work=KindOfWork.QUICK))
    assert first(plan, level(3, 1, "b")) == "b"


def test_what_a_coming_gate_asks_for_goes_before_that_until_its_level_is_decided():
    quick = ladder("b", work=KindOfWork.QUICK)
    plan = protocol(ladder("a"), quick, ladder("c"), gate=(asks("c", 2),))
    assert first(plan) == "c"
    assert first(plan, level(3, 2, "c")) == "b"


def test_a_ladder_that_the_one_asked_for_waits_for_goes_first_too():
    chain = (ladder("a"), ladder("b", Passed(ladder="c", level=2)), ladder("c"))
    plan = protocol(*chain, gate=(asks("b", 2),))
    assert asked_for(walk(history(), plan)) == {"b": 1, "c": 1}
    assert first(plan, level(3, 1, "b")) == "c"


def test_the_nearer_of_two_gates_comes_first():
    plan = protocol(ladder("a"), ladder("b"), gate=(asks("b", 2),))
    plan = replace(plan, sign_off=(asks("a", 2),))
    assert first(plan) == "b"


@pytest.mark.parametrize(
    ("plan", "why"),
    [
        (protocol(ladder("a"), ladder("b"), gate=(asks("b", 2),)), "Two asks for it"),
        (protocol(ladder("a"), ladder("b", work=KindOfWork.QUICK)), "rests every second day"),
        (protocol(ladder("b"), ladder("a")), "it stands first"),
    ],
)
def test_the_reason_of_the_other_names_which_goes_first_and_why(plan, why):
    found = {one.ladder.key: one for one in level_proposals(history(done(4)), plan, day(4))}
    assert (found["b"].proposed, found["a"].proposed) == (2, 1)
    assert found["a"].reason.startswith("Level 1 was passed. b goes up first, ")
    assert why in found["a"].reason


@given(
    levels=st.lists(
        st.tuples(st.integers(1, 9), st.integers(1, 3), st.sampled_from("abc")), max_size=6
    ),
    shuffle=st.randoms(use_true_random=False),
)
def test_the_order_of_facts_changes_nothing_and_exactly_one_ladder_goes_first(levels, shuffle):
    chain = (ladder("a"), ladder("b", Passed(ladder="c", level=3)), ladder("c"))
    plan = protocol(*chain, gate=(asks("b", 3),))
    facts: list[Any] = [level(on, to, key) for on, to, key in dict.fromkeys(levels)]
    by_day = {(one.on, one.ladder): one for one in facts}
    facts = [*by_day.values(), done(5), done(8)]
    found = level_proposals(history(*facts), plan, day(10))
    shuffle.shuffle(facts)
    assert level_proposals(history(*facts), plan, day(10)) == found
    assert sum(one.proposed > one.level for one in found) <= 1


def test_hops_on_one_leg_are_not_due_on_the_evening_that_opens_hops_on_both():
    opened = [moved(3, 3), *(one for one in passing(3, 5) if one != before_hops(4))]
    early = decided(*opened, on=5)
    (hops,) = early.missing
    assert (hops.criterion.key, hops.verdict) == ("hops_20", Verdict.NOT_MET)
    assert hops.remark.startswith("Counts after Hop, level 2, was passed.")
    assert due_words(decided(moved(3, 3), on=3).criteria)
    assert "hops" not in due_words(decided(moved(3, 3), on=3).criteria)
    later = decided(moved(3, 3), before_hops(4), on=5)
    assert "hops" in due_words(later.criteria)
    assert decided(*opened, before_hops(4), on=5).missing == ()


def test_no_shipped_protocol_asks_for_hops_on_one_leg_before_they_are_open():
    for plan in load_protocols().values():
        keys = {one.key: one for one in plan.ladders}
        for stage in range(1, len(plan.stages) + 1):
            for one in plan.gate(stage):
                if one.check == "hops_at_least" and "hop" in keys:
                    assert one.after
                    assert whole(one, "hops")
    assert CALF in load_protocols().values()
