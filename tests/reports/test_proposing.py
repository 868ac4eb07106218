"""What is proposed at the end of an evening, recomputed from what was noted."""

from dataclasses import replace
from datetime import datetime
from typing import Any

import pytest

from teamrehab.domain.athletes import Team
from teamrehab.domain.availability import Activity, Limit, Match, Training
from teamrehab.domain.history import Squad
from teamrehab.domain.injuries import (
    LevelMoved,
    Nature,
    ProtocolChosen,
    RedFlag,
    StageMoved,
    Urgency,
)
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    Missed,
    SessionEntry,
    SessionKind,
    SessionMissed,
    Symptom,
)
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.reports.closing import ProposedKind
from teamrehab.reports.disclosure import check_free_words
from teamrehab.reports.evening import evening_lines
from teamrehab.reports.proposing import evening_count, proposals
from teamrehab.reports.review import squad_rows
from teamrehab.reports.sheet import coach_sheet
from tests.builders import athlete, case, day, history, stated
from tests.domain import evenings

TONIGHT = day(10)
IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
CALF = ProtocolChosen(**IDS, on=day(0), protocol="calf_strain", version="1")
OUT = stated(case(), 0)
LIMITED = stated(case(), 1, training=Training.WITH_LIMITS, limits=(Limit(Activity.SPRINT),))
COMING = datetime(2026, 10, 17, 12)  # noqa: DTZ001  the club's wall time
NOW = datetime(2026, 10, 15, 21, 40)  # noqa: DTZ001
BAD = evenings.session(10, symptom=Symptom(5))


def squad(*values, of=None):
    found = history(*values, of=of)
    return Squad(
        day=TONIGHT,
        team=Team(name="Harbour Rovers"),
        athletes=(found.athlete,),
        open_cases=(found,),
    )


def proposed(*values, of=None, on=TONIGHT):
    found = squad(*values, of=of)
    protocols, catalogue = load_protocols(), injury_catalogue()
    rows = squad_rows(found, protocols, catalogue, {}, TONIGHT)
    return proposals(found, protocols, catalogue, rows, on)


def of_kind(found, kind):
    return [one for one in found if one.kind is kind]


def rehab(**changes):
    values = {"kind": SessionKind.REHAB, "symptom": Symptom(1), "done": Done.AS_PLANNED}
    return evenings.session(10, **(values | changes))


def test_nothing_is_proposed_about_a_case_of_which_nothing_was_noted():
    earlier = evenings.passing(2, 9)
    unseen = SessionMissed(session_id="x", **IDS, on=TONIGHT, reason=Missed.NOT_SEEN)
    assert proposed(CALF, OUT, *earlier) == ()
    assert proposed(CALF, OUT, evenings.moved(3, 2), *earlier, unseen) == ()


def test_a_move_up_is_proposed_with_every_criterion_and_its_number_and_is_provisional():
    tests = (evenings.raises(10, 15, 17), evenings.bent(10, 15, 15))
    found = proposed(CALF, OUT, evenings.moved(5, 2), *tests)
    (stage,) = of_kind(found, ProposedKind.STAGE)
    assert stage.value == StageMoved(**IDS, on=TONIGHT, stage=3, proposed=3)
    assert stage.words == "Criteria met: Hop and jump can be opened"
    assert "15 of 15 repetitions, left, Thu 15 Oct" in stage.reason
    assert (stage.moves, stage.provisional, stage.needs_name) == (True, True, True)
    weaker = replace(tests[0], left=replace(tests[0].left, repetitions=14))
    (stay,) = of_kind(proposed(CALF, OUT, evenings.moved(5, 2), weaker, tests[1]), stage.kind)
    assert (stay.moves, stay.value) == (False, None)
    assert "14 of 15 repetitions" in stay.reason


def test_only_one_stage_is_proposed_a_day():
    tests = (evenings.raises(10, 25, 25), evenings.hops(10), evenings.looked(10))
    today = proposed(CALF, OUT, evenings.moved(5, 2), evenings.moved(10, 3), *tests)
    (opened,) = of_kind(today, ProposedKind.STAGE)
    assert (opened.moves, opened.words) == (False, "Hop and jump was opened today")
    (stage,) = of_kind(proposed(CALF, OUT, evenings.moved(8, 3), *tests), ProposedKind.STAGE)
    assert stage.value.stage == 4


def test_levels_are_proposed_for_one_key_and_a_step_up_is_provisional():
    found = of_kind(proposed(CALF, OUT, evenings.moved(5, 2), rehab()), ProposedKind.LEVEL)
    up = {one.value.ladder: one for one in found if one.moves}
    raised = up["raise_straight"]
    assert raised.value == LevelMoved(
        **IDS, on=TONIGHT, ladder="raise_straight", level=2, proposed=2
    )
    assert raised.words == "Straight-knee raise: level 2, one leg on the floor"
    assert (raised.provisional, raised.needs_name) == (True, False)
    assert raised.coach_before == raised.coach_after
    stay = of_kind(
        proposed(CALF, OUT, evenings.moved(5, 2), rehab(done=Done.PARTLY)), ProposedKind.LEVEL
    )
    assert not any(one.moves for one in stay)


def test_a_stop_closes_training_from_the_next_day_and_nothing_goes_up_beside_it():
    ready = (evenings.moved(5, 2), evenings.raises(10, 15, 15), evenings.bent(10, 15, 15))
    found = proposed(CALF, LIMITED, *ready, BAD)
    (stop,) = found
    assert stop.kind is ProposedKind.AVAILABILITY
    assert "Symptom 5 today, 4 or more" in stop.reason
    assert stop.value == stated(case(), 11)
    assert "May not: sprints" in stop.coach_before
    assert stop.coach_after.startswith("Not training: medical; being assessed")


def test_a_match_that_is_open_is_left_to_the_form_and_a_red_flag_closes_it():
    playing = replace(LIMITED, match=Match.LIMITED, match_minutes=30)
    (asked,) = proposed(playing, BAD)
    assert (asked.value, asked.moves) == (None, True)
    (flagged,) = proposed(playing, BAD, evenings.flag(10))
    assert (flagged.value.match, flagged.value.training) == (
        Match.NOT_AVAILABLE,
        Training.NONE,
    )


def test_who_is_out_already_only_needs_the_day_of_the_review():
    (asked,) = proposed(OUT, BAD)
    assert (asked.moves, asked.value) == (True, None)
    assert asked.words == "Stop: say when it is reviewed"
    (known,) = proposed(replace(OUT, next_update=COMING), BAD)
    assert not known.moves
    assert "Sat 17 Oct, 12:00" in known.words


def test_a_bad_morning_and_a_bad_evening_stop_an_illness_and_a_case_without_protocol():
    for nature in Nature:
        of = case(nature=nature)
        (stop,) = proposed(LIMITED, BAD, of=of)
        assert stop.value is not None
        assert proposed(LIMITED, rehab(), of=of) == ()
    missed = SessionMissed(session_id="x", **IDS, on=TONIGHT, reason=Missed.SYMPTOM)
    assert proposed(LIMITED, missed, evenings.morning(10, 6))


def test_opening_the_last_stage_asks_for_limits_and_sign_off_for_a_signature():
    last = (CALF, OUT, evenings.moved(10, 5))
    found = proposed(*last, evenings.ran(10))
    (limits,) = of_kind(found, ProposedKind.AVAILABILITY)
    assert (limits.value, limits.moves) == (None, True)
    assert limits.coach_after == "Trains with limits, as stated in the form"
    done = proposed(CALF, LIMITED, evenings.moved(5, 5), *evenings.passing(5, 10))
    (sign,) = of_kind(done, ProposedKind.SIGN_OFF)
    assert (sign.value, sign.moves) == (None, True)
    assert "30 of 30 repetitions" in sign.reason
    assert of_kind(done, ProposedKind.AVAILABILITY) == []


def late(*values):
    """Return what is proposed for the evening of day 10 by who closes it on day 11."""
    found = replace(squad(*values), day=day(11))
    protocols, catalogue = load_protocols(), injury_catalogue()
    rows = squad_rows(found, protocols, catalogue, {}, day(11))
    return proposals(found, protocols, catalogue, rows, TONIGHT)


def test_an_evening_closed_late_proposes_nothing_up_over_a_bad_morning_since():
    values = (CALF, OUT, evenings.moved(5, 2), *evenings.passing(2, 10), rehab())
    calm = late(*values, evenings.morning(11, 1))
    assert {one.kind for one in calm if one.moves} == {ProposedKind.STAGE}
    other = late(CALF, OUT, evenings.moved(5, 2), rehab(), evenings.morning(11, 1))
    assert {one.kind for one in other if one.moves} == {ProposedKind.LEVEL}
    assert {one.evening for one in calm} == {TONIGHT}
    (stop,) = late(*values, evenings.morning(11, 5))
    assert stop.kind is ProposedKind.AVAILABILITY
    assert "This morning: Symptom 5" in stop.reason


def test_what_would_change_something_stands_first():
    moves = [one.moves for one in proposed(CALF, OUT, evenings.moved(5, 2), rehab())]
    assert moves == sorted(moves, reverse=True)
    assert set(moves) == {True, False}


def test_red_flags_stand_before_stops_and_stops_before_what_goes_up():
    cases = [replace(case(), case_id=f"c{n}", athlete_id=f"a{n}") for n in (1, 2, 3)]
    flag = RedFlag(
        flag_id="r1",
        case_id="c3",
        athlete_id="a3",
        on=TONIGHT,
        what="calf warm",
        urgency=Urgency.SAME_DAY,
    )
    noted = ((rehab(),), (BAD,), (rehab(), flag))
    histories = [
        history(
            *(
                replace(v, case_id=of.case_id, athlete_id=of.athlete_id)
                for v in (CALF, OUT, *vs)
            ),
            of=of,
            by=athlete(athlete_id=of.athlete_id, surname=of.athlete_id),
        )
        for of, vs in zip(cases, noted, strict=True)
    ]
    found = replace(
        squad(CALF),
        athletes=tuple(h.athlete for h in histories),
        open_cases=tuple(histories),
    )
    rows = squad_rows(found, {}, {}, {}, TONIGHT)
    order = [one.athlete_id for one in proposals(found, load_protocols(), {}, rows, TONIGHT)]
    assert list(dict.fromkeys(order)) == ["a3", "a2", "a1"]


@pytest.mark.parametrize("value", [BAD, rehab(), evenings.looked(10)])
@pytest.mark.parametrize("said", [OUT, LIMITED])
def test_what_the_coach_would_read_holds_nothing_clinical(value, said):
    of = case(what="MARK soleus tear", area="MARK calf")
    stages = (evenings.moved(5, 2), evenings.passing(2, 10)[0], evenings.passing(2, 10)[1])
    for values in ((CALF, said, value), (CALF, said, *stages, value)):
        for one in proposed(*values, of=of):
            for words in (one.coach_before, one.coach_after):
                assert "MARK" not in words
                assert check_free_words(words.replace("medical", "")) == ()


def test_an_evening_is_counted_by_rows_and_names_who_is_open():
    unseen = SessionMissed(session_id="x", **IDS, on=TONIGHT, reason=Missed.NOT_SEEN)
    counts = []
    for value in (rehab(), unseen, OUT):
        found = squad(CALF, OUT, value)
        rows = squad_rows(found, {}, {}, {}, TONIGHT)
        lines = evening_lines(found, load_protocols(), {}, TONIGHT, NOW)
        count = evening_count(lines, coach_sheet(found, rows, now=NOW))
        counts.append((count.entered, count.missed, count.open))
        assert count.changes == ("No sheet was issued yet.",)
    assert counts == [(1, 0, ()), (0, 1, ()), (0, 0, ("Sam Okafor",))]


def test_no_stage_is_opened_on_an_evening_a_level_goes_back():
    fault = ExerciseDone(exercise="raise_straight", level=3, sets=3, faults=("drop",))
    failed = [
        replace(rehab(exercises=(fault,)), session_id=f"e{on}", on=day(on)) for on in (8, 10)
    ]
    decided = [evenings.moved(5, 2), evenings.level(6, 3, "raise_straight")]
    gate = [one for one in evenings.passing(2, 10) if not isinstance(one, SessionEntry)]
    found = proposed(CALF, OUT, *decided, *failed, *gate)
    (back,) = [one for one in of_kind(found, ProposedKind.LEVEL) if one.moves]
    assert back.value.level == 2
    (stage,) = of_kind(found, ProposedKind.STAGE)
    assert not stage.moves
    assert "goes back to level 2 today" in stage.reason
