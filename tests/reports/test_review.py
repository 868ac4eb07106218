"""Rows of the squad table and the outlook, from what stands."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.estimates import NoEstimate
from teamrehab.domain.injuries import ProtocolChosen, ReturnDecision
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.reports.outlook import outlook
from teamrehab.reports.review import squad_row, squad_rows
from tests.reports.squads import (
    ESTIMATES,
    FIXTURES,
    MONDAY,
    club,
    estimate,
    hurt,
    people,
    rows_of,
)


def row_of(squad, athlete_id, estimates=ESTIMATES):
    return next(row for row in rows_of(squad, estimates) if row.athlete_id == athlete_id)


def one(*histories, **changes):
    return club(1, athletes=people(1), open_cases=histories, absences=(), **changes)


def test_a_healthy_athlete_is_fully_available_and_has_no_clinical_columns():
    row = row_of(club(), "a2")
    assert (row.training, row.match) == (Training.FULL, Match.AVAILABLE)
    assert (row.case_id, row.problem, row.likely, row.days) == ("", "", None, None)


def test_who_has_left_or_not_yet_joined_is_not_in_the_table():
    here, left, coming = people(3)
    squad = club(
        3,
        athletes=(here, replace(left, left=MONDAY), replace(coming, joined=date(2027, 1, 1))),
        open_cases=(),
        absences=(),
    )
    assert [row.athlete_id for row in rows_of(squad)] == ["a1"]


def test_a_case_says_its_range_days_and_days_lost():
    row = row_of(one(hurt(people(1)[0], 9)), "a1", {"c-a1": estimate(1, 10)})
    assert (row.days, row.days_lost, row.days_with_limits) == (9, 9, 0)
    assert row.likely is not None
    assert row.likely.earliest == MONDAY + timedelta(days=1)
    assert row.likely.latest == MONDAY + timedelta(days=9)
    assert [c.fixture_id for c in row.likely.chances] == ["m1", "m2", "m3"]
    assert round(row.likely.chances[0].chance, 9) == 0.4, "cleared the day before, by default"


def test_while_estimates_are_worked_out_the_rest_of_the_row_is_there():
    row = row_of(one(hurt(people(1)[0], 9)), "a1", {})
    assert row.likely is None
    assert row.no_estimate is None
    assert row.days == 9


def test_a_case_without_an_estimate_says_why():
    row = row_of(one(hurt(people(1)[0], 1)), "a1", {"c-a1": NoEstimate.TOO_YOUNG})
    assert (row.no_estimate, row.likely) == (NoEstimate.TOO_YOUNG, None)


def second_case(who, fact=None, **changes):
    """Return another case of the same athlete."""
    other = hurt(who, 3, *([] if fact is None else [fact]), **changes)
    facts = tuple(replace(f, value=replace(f.value, case_id="other")) for f in other.facts)
    return replace(other, case=replace(other.case, case_id="other"), facts=facts)


def test_of_two_cases_the_one_that_keeps_out_longest_gives_the_row():
    who = people(1)[0]
    squad = one(hurt(who, 9), second_case(who))
    row = row_of(squad, "a1", {"c-a1": estimate(1, 10), "other": estimate(5, 40)})
    assert (row.case_id, row.other_cases) == ("other", ("c-a1",))
    assert row.likely is not None
    assert round(row.likely.chances[0].chance, 9) == 0.0, "the smaller chance of the two"


def test_two_cases_one_of_them_unknown_give_no_range():
    who = people(1)[0]
    squad = one(hurt(who, 9), second_case(who))
    row = row_of(squad, "a1", {"c-a1": estimate(1, 10), "other": NoEstimate.ILLNESS})
    assert (row.no_estimate, row.likely) == (NoEstimate.ILLNESS, None)


def test_a_case_that_restricts_nothing_does_not_hide_the_range_of_the_other():
    who = people(1)[0]
    free = second_case(who, training=Training.FULL, match=Match.AVAILABLE)
    row = row_of(one(hurt(who, 9), free), "a1", {"c-a1": estimate(1, 10)})
    assert row.case_id == "c-a1"
    assert row.likely is not None


def decided(**changes):
    return ReturnDecision(case_id="c-a1", athlete_id="a1", on=MONDAY, **changes)


def test_a_decision_cuts_the_range_off_and_is_shown_as_one():
    blocked = decided(not_before=date(2026, 12, 21))
    row = row_of(one(hurt(people(1)[0], 9, blocked)), "a1", {"c-a1": estimate(1, 14)})
    assert row.likely is not None
    assert row.likely.not_before == date(2026, 12, 21)
    assert row.likely.earliest is not None
    assert row.likely.earliest >= date(2026, 12, 21)
    first, second, _third = row.likely.chances
    assert (first.chance, first.decided) == (0.0, True)
    assert not second.decided
    assert second.chance > 0.5


def test_a_match_ruled_out_by_name_is_decided_and_the_others_are_not():
    out = decided(ruled_out=("m2",))
    row = row_of(one(hurt(people(1)[0], 9, out)), "a1", {"c-a1": estimate(1, 4)})
    assert row.likely is not None
    assert [c.decided for c in row.likely.chances] == [False, True, False]


def test_a_decision_stands_even_where_there_is_no_estimate():
    blocked = decided(not_before=date(2026, 12, 28))
    row = row_of(one(hurt(people(1)[0], 1, blocked)), "a1", {"c-a1": NoEstimate.TOO_YOUNG})
    assert row.likely is not None
    assert row.likely.not_before == date(2026, 12, 28)
    assert row.likely.earliest is None
    assert {c.fixture_id for c in row.likely.chances} == {"m1", "m2"}


def test_a_day_not_before_that_has_come_is_no_longer_shown_and_rules_nothing_out():
    for day in (MONDAY, MONDAY - timedelta(days=1)):
        case = hurt(people(1)[0], 9, decided(not_before=day))
        alone = row_of(one(case), "a1", {"c-a1": NoEstimate.UNCONFIRMED})
        assert alone.likely is None
        ranged = row_of(one(case), "a1", {"c-a1": estimate(1, 10)})
        assert ranged.likely is not None
        assert ranged.likely.not_before is None
        assert not any(c.decided for c in ranged.likely.chances)


def test_a_match_within_what_is_stated_as_out_is_out_whatever_the_estimate_says():
    case = hurt(people(1)[0], 9, until=FIXTURES[1].on)
    squad = one(case)
    row = row_of(squad, "a1", {"c-a1": estimate(1, 4)})
    assert row.likely is not None
    assert [c.decided for c in row.likely.chances] == [True, False, False]
    assert outlook(squad, (row,)).matches[0].out == 1


PLAYS = [Match.AVAILABLE, Match.LIMITED]


@pytest.mark.parametrize("match", PLAYS)
@pytest.mark.parametrize(
    "changes", [{"ruled_out": ("m1",)}, {"not_before": FIXTURES[1].on + timedelta(days=1)}]
)
def test_a_match_ruled_out_is_out_whatever_the_match_answer_of_today_is(match, changes):
    case = hurt(people(1)[0], 9, decided(**changes), training=Training.FULL, match=match)
    squad = one(case)
    row = row_of(squad, "a1", {"c-a1": estimate(1, 4)})
    assert row.likely is not None
    assert row.likely.chances[0].decided
    seen = outlook(squad, (row,)).matches
    assert [(m.available, m.out) for m in seen] == [(0, 1), (1, 0), (1, 0)]


def test_a_decision_on_the_other_case_counts_though_that_case_restricts_nothing_today():
    who = people(1)[0]
    free = second_case(
        who,
        training=Training.FULL,
        match=Match.AVAILABLE,
        fact=ReturnDecision(
            case_id="other", athlete_id="a1", on=MONDAY, not_before=date(2026, 12, 28)
        ),
    )
    row = row_of(one(hurt(who, 9), free), "a1", {"c-a1": estimate(1, 10)})
    assert row.case_id == "c-a1"
    assert row.likely is not None
    assert row.likely.not_before == row.likely.earliest == date(2026, 12, 28)
    assert [c.decided for c in row.likely.chances] == [True, True, False]


def test_the_outlook_counts_every_athlete_once_for_training_and_for_each_match():
    squad = club()
    seen = outlook(squad, rows_of(squad))
    assert (seen.full, seen.with_limits, seen.none, seen.away) == (20, 4, 4, 2)
    for match in seen.matches:
        counted = match.available + match.possible + match.out + match.being_assessed
        assert counted == len(squad.athletes)


def test_the_expected_number_is_the_sum_of_the_chances_of_the_possible():
    squad = club()
    rows = rows_of(squad)
    match = outlook(squad, rows).matches[1]
    chances = [c.chance for r in rows if r.likely for c in r.likely.chances if c.on.day == 27]
    possible = [c for c in chances if c + 1e-9 >= 0.1]
    assert match.possible == len(possible)
    assert abs(match.expected_of_possible - sum(possible)) < 1e-9


def test_before_the_estimates_are_there_nobody_injured_is_called_out_for_a_later_match():
    squad = one(hurt(people(1)[0], 9))
    match = outlook(squad, rows_of(squad, {})).matches[0]
    assert (match.possible, match.out, match.being_assessed) == (0, 0, 1)


@given(st.integers(1, 20), st.integers(0, 60))
def test_a_later_match_never_has_a_smaller_chance(first, length):
    row = row_of(one(hurt(people(1)[0], 9)), "a1", {"c-a1": estimate(first, first + length)})
    assert row.likely is not None
    chances = [c.chance for c in row.likely.chances]
    assert chances == sorted(chances)


def test_the_row_of_one_save_is_the_row_of_the_whole_table():
    squad = club()
    for athlete in squad.athletes:
        alone = squad_row(athlete, squad, {}, {}, ESTIMATES)
        assert alone == row_of(squad, athlete.athlete_id)


def test_a_case_on_the_calf_protocol_carries_its_decision_and_what_is_missing_next():
    chosen = ProtocolChosen(
        case_id="c-a1", athlete_id="a1", on=MONDAY, protocol="calf_strain", version="1"
    )
    squad = one(hurt(people(1)[0], 2, chosen))
    (row,) = squad_rows(squad, load_protocols(), injury_catalogue(), {}, MONDAY)
    assert row.decision is not None
    assert row.decision.stage_name == "Settle"
    assert row.missing_next.startswith(row.decision.missing[0].criterion.sentence)


def test_a_statement_of_tomorrow_does_not_change_today():
    tomorrow = AvailabilityStated(
        case_id="c-a1",
        athlete_id="a1",
        on=MONDAY + timedelta(days=1),
        training=Training.FULL,
        match=Match.AVAILABLE,
    )
    row = row_of(one(hurt(people(1)[0], 2, tomorrow)), "a1")
    assert row.training is Training.NONE


def test_an_empty_squad_has_no_rows_and_an_outlook_of_noughts():
    squad = club(athletes=(), open_cases=(), absences=())
    seen = outlook(squad, rows_of(squad))
    assert rows_of(squad) == ()
    assert (seen.full, seen.none, seen.matches[0].available) == (0, 0, 0)
    assert len(seen.matches) == len(FIXTURES) - 1
