"""The coach's sheet as a value and as plain text."""

from dataclasses import fields, replace
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from teamrehab.domain.athletes import StaffMember
from teamrehab.domain.availability import Absence, AbsenceReason, Match, Training
from teamrehab.domain.days import Fixture
from teamrehab.domain.injuries import Clearance, ReturnDecision, Scope
from teamrehab.domain.sheets import Disclosed
from teamrehab.reports.disclosure import withheld, withheld_sentences
from teamrehab.reports.findings import CoachLine
from teamrehab.reports.sheet import coach_sheet, issued
from teamrehab.reports.sheet_text import sheet_text
from teamrehab.reports.wording import day_words
from teamrehab.reports.wording_sheet import until_words, update_words
from tests.reports.squads import (
    ESTIMATES,
    FIXTURES,
    MARKER,
    MONDAY,
    NOW,
    club,
    estimate,
    hurt,
    limited,
    people,
    rows_of,
)


def sheet_of(squad, estimates=ESTIMATES, **options):
    said: dict[str, Any] = {"now": NOW, "signed": "Ines Duarte"} | options
    return coach_sheet(squad, rows_of(squad, estimates), **said)


def line_of(sheet, name):
    return next(line for line in sheet.lines if name in line.name)


def ruled_out(*matches, athlete_id="a1"):
    return ReturnDecision(
        case_id=f"c-{athlete_id}", athlete_id=athlete_id, on=MONDAY, ruled_out=matches
    )


def agreed(sentence, **changes):
    values = {
        "athlete_id": "a7",
        "on": MONDAY,
        "until": MONDAY + timedelta(days=6),
        "sentence": sentence,
        "consent_taken_by": "s1",
    }
    return Disclosed(**(values | changes))


def test_every_athlete_stands_on_the_sheet_exactly_once():
    squad = club()
    sheet = sheet_of(squad)
    assert sorted(line.name for line in sheet.lines) == sorted(a.name for a in squad.athletes)
    groups = (sheet.with_limits, sheet.not_training, sheet.full, sheet.away)
    assert [len(group) for group in groups] == [4, 4, 20, 2]


def test_nothing_clinical_reaches_the_sheet_or_its_text():
    squad = club()
    sheet = sheet_of(squad)
    assert MARKER in repr(squad)
    assert MARKER not in repr(sheet)
    assert MARKER not in sheet_text(sheet)
    reasons = {line.reason for line in sheet.not_training + sheet.with_limits}
    assert reasons == {"medical"}


def test_the_sheet_has_no_place_for_a_clinical_field():
    names = {field.name for field in fields(CoachLine)}
    assert not names & {"problem", "side", "decision", "no_estimate", "estimate", "stage"}


def test_who_trains_with_limits_has_may_and_may_not_and_until_when():
    line = line_of(sheet_of(club()), "Okafor")
    assert "running up to 80 % of own speed" in line.may
    assert line.may_not == ("contact", "strikes and throws")
    assert line.until == MONDAY + timedelta(days=3)


@pytest.mark.parametrize(
    ("until", "words"),
    [
        (MONDAY, "until Mon 14 Dec"),
        (MONDAY - timedelta(days=1), "until further notice"),
        (MONDAY - timedelta(days=4), "until further notice"),
    ],
)
def test_an_end_that_has_passed_is_not_told_as_one(until, words):
    sheet = sheet_of(club(1, open_cases=(limited(people(1)[0], until=until),), absences=()))
    assert until_words(sheet.lines[0]) == words


def test_each_coming_match_has_its_words_for_who_is_not_available_yet():
    sheet = sheet_of(club())
    assert [c.words for c in line_of(sheet, "Okafor").chances] == [
        "doubtful, 5 in 10",
        "expected, 9 in 10 or more",
        "expected, 9 in 10 or more",
    ]
    assert [c.words for c in line_of(sheet, "לוי").chances][:2] == ["ruled out, decided"] * 2
    assert {c.words for c in line_of(sheet, "Bhriain").chances} == {"being assessed"}


@pytest.mark.parametrize(
    ("kick_off", "hour", "listed"),
    [(15, 14, True), (15, 16, False), (None, 16, True)],
)
def test_a_match_that_has_begun_is_not_listed_as_coming(kick_off, hour, listed):
    begins = None if kick_off is None else datetime(2026, 12, 14, kick_off)  # noqa: DTZ001
    today = Fixture(fixture_id="md", on=MONDAY, opponent="Quarry Town", kick_off=begins)
    squad = club(fixtures=(*FIXTURES, today))
    sheet = sheet_of(squad, now=datetime(2026, 12, 14, hour))  # noqa: DTZ001
    ids = [match.fixture.fixture_id for match in sheet.today.matches]
    assert ids == (["md"] if listed else []) + ["m1", "m2"]
    out = line_of(sheet, "Lindquist")
    assert [chance.label for chance in out.chances] == [
        day_words(match.fixture.on) for match in sheet.today.matches
    ]
    assert dict(sheet.days)[MONDAY] == "MD"
    assert ("Mon 14 Dec" in sheet_text(sheet).split("Changed")[0].split("Today")[1]) == listed


def test_who_may_play_with_a_limit_has_the_limit_in_words_and_no_chance():
    line = line_of(sheet_of(club()), "Öztürk")
    assert line.match_words == "available up to 30 minutes, off the bench"
    assert line.chances == ()


@pytest.mark.parametrize(
    ("role", "words"),
    [
        ("", "available with a limit; second half only"),
        ("second half only", "available, second half only"),
    ],
)
def test_the_limit_of_a_signature_stands_with_the_match_and_only_once(role, words):
    signed = Clearance(
        case_id="c-a1",
        athlete_id="a1",
        on=MONDAY,
        scope=Scope.MATCH_WITH_LIMIT,
        signed_by="s1",
        limit="second half only",
    )
    case = limited(people(1)[0], match=Match.LIMITED, match_role=role)
    case = replace(case, facts=(*case.facts, replace(case.facts[0], value=signed)))
    assert sheet_of(club(1, open_cases=(case,))).lines[0].match_words == words


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"match": Match.AVAILABLE}, "available"),
        ({"match": Match.LIMITED, "match_minutes": 30}, "available up to 30 minutes"),
    ],
)
@pytest.mark.parametrize("training", [Training.FULL, Training.WITH_LIMITS])
def test_a_match_ruled_out_is_told_of_who_may_play_today(training, changes, words):
    case = hurt(people(1)[0], 20, ruled_out("m1"), **(changes | {"training": training}))
    sheet = sheet_of(club(1, open_cases=(case,), absences=()))
    (line,) = sheet.lines
    assert [c.words for c in line.chances] == ["ruled out, decided", words, words]
    assert line.reason == "medical"
    assert not line.plays
    assert "Sat 19 Dec: ruled out, decided" in sheet_text(sheet)


def test_who_is_away_today_and_ruled_out_later_is_away_for_the_reason_of_the_absence():
    free = {"training": Training.FULL, "match": Match.AVAILABLE}
    case = hurt(people(1)[0], 20, ruled_out("m2"), **free)
    trip = Absence(
        absence_id="t", athlete_id="a1", on=MONDAY, reason=AbsenceReason.PERSONAL, until=MONDAY
    )
    (line,) = sheet_of(club(1, open_cases=(case,), absences=(trip,))).away
    assert line.reason == "personal, until Mon 14 Dec"
    assert [c.words for c in line.chances] == ["available", "ruled out, decided", "available"]


def test_an_absence_says_why_and_until_when_and_is_no_medical_reason():
    sheet = sheet_of(club())
    assert [line.reason for line in sheet.away] == [
        "with the national team, until Sun 20 Dec",
        "personal",
    ]


def test_who_is_away_on_match_day_is_not_given_a_chance():
    trip = Absence(
        absence_id="t",
        athlete_id="a1",
        on=MONDAY + timedelta(days=4),
        reason=AbsenceReason.OTHER,
    )
    chances = line_of(sheet_of(club(absences=(trip,))), "Okafor").chances
    assert {c.words for c in chances} == {"away"}


def test_a_suspended_athlete_trains_and_is_shown_with_full_training():
    ban = Absence(
        absence_id="b",
        athlete_id="a2",
        on=MONDAY,
        reason=AbsenceReason.SUSPENDED,
        until=MONDAY + timedelta(days=6),
    )
    line = line_of(sheet_of(club(absences=(ban,))), "Łukasz")
    assert (line.training, line.match) == (Training.FULL, Match.NOT_AVAILABLE)
    assert line.reason == "suspended, until Sun 20 Dec"


def test_decisions_and_updates_come_soonest_first_and_past_ones_are_left_out():
    sheet = sheet_of(club())
    assert [when for _who, when in sheet.decisions] == sorted(w for _n, w in sheet.decisions)
    assert len(sheet.decisions) == 3
    later = sheet_of(club(), now=datetime(2026, 12, 17, 8))  # noqa: DTZ001
    assert [who for who, _when in later.decisions] == ["Γιώργος Παππάς"]
    assert line_of(later, "Bhriain").next_update is None


def test_an_update_that_was_promised_and_not_given_is_told_with_its_moment():
    for passed, out, limits in (
        (timedelta(hours=1), "was due Mon 14 Dec, 07:30", "update was due Mon 14 Dec, 07:30"),
        (-timedelta(hours=1), "Mon 14 Dec, 09:30", "next update Mon 14 Dec, 09:30"),
    ):
        case = limited(people(1)[0], until=None, next_update=NOW - passed)
        (line,) = sheet_of(club(1, open_cases=(case,), absences=())).lines
        assert update_words(line) == out
        assert until_words(line) == f"until further notice, {limits}"
    nothing = limited(people(1)[0], until=None, next_update=None)
    assert update_words(sheet_of(club(1, open_cases=(nothing,))).lines[0]) == "no date set"


def test_a_sheet_is_valid_for_the_days_the_club_has_set():
    squad = club()
    assert sheet_of(squad).valid_until == date(2026, 12, 20)
    short = club(settings=replace(squad.settings, sheet_valid_days=2))
    assert sheet_of(short).valid_until == date(2026, 12, 15)


def test_the_first_sheet_replaces_none_and_the_next_counts_on():
    squad = club()
    first = sheet_of(squad)
    assert (first.number, first.replaces) == (1, None)
    again = club(last_sheet=issued(first, squad, rows_of(squad)))
    second = sheet_of(again)
    assert (second.number, second.replaces, second.changed) == (2, 1, ())
    assert "Nothing since sheet 1." in sheet_text(second)


def changed_from(before, after, estimates=ESTIMATES):
    last = issued(sheet_of(before), before, rows_of(before))
    return sheet_of(replace(after, last_sheet=last), estimates).changed


def test_a_sheet_says_what_changed_since_the_last_one_and_only_that():
    who = people(30)
    healed = tuple(h for h in club().open_cases if h.case.athlete_id != "a11")
    assert changed_from(club(), club(open_cases=healed)) == (
        "Jonah Lindquist: training full (was none)",
        "Jonah Lindquist: matches available (was not available)",
    )
    assert changed_from(club(29), club(30)) == (f"{who[29].name}: new on the sheet",)


def limited_match(**changes):
    return club(1, open_cases=(limited(people(1)[0], match=Match.LIMITED, **changes),))


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        (
            {"match_minutes": 30},
            {"match_minutes": 60},
            "matches available up to 60 minutes (was available up to 30 minutes)",
        ),
        (
            {"match_role": "off the bench"},
            {"match_role": "second half only"},
            "matches available, second half only (was available, off the bench)",
        ),
        (
            {"match": Match.UNDECIDED, "next_update": datetime(2026, 12, 18, 11)},  # noqa: DTZ001
            {"match": Match.UNDECIDED, "next_update": datetime(2026, 12, 18, 16)},  # noqa: DTZ001
            "matches decision Fri 18 Dec, 16:00 (was decision Fri 18 Dec, 11:00)",
        ),
    ],
)
def test_changed_minutes_role_or_hour_of_a_match_are_told(before, after, said):
    squads = [
        club(1, open_cases=(limited(people(1)[0], **({"match": Match.LIMITED} | one)),))
        for one in (before, after)
    ]
    assert changed_from(*squads) == (f"Sam Okafor: {said}",)


def test_a_clinical_word_in_a_role_reaches_neither_the_sheet_kept_nor_what_changed():
    before, after = limited_match(match_role="calf permitting"), limited_match(match_minutes=9)
    kept = issued(sheet_of(before), before, rows_of(before))
    assert "calf" not in repr(kept)
    assert "calf" not in repr(changed_from(before, after))


def test_a_sheet_from_before_match_words_were_kept_reports_no_change_of_them():
    squad = limited_match(match_minutes=30)
    last = issued(sheet_of(squad), squad, rows_of(squad))
    old = replace(last, lines=tuple(replace(line, match_words="") for line in last.lines))
    assert sheet_of(replace(squad, last_sheet=old)).changed == ()


def test_a_decision_whose_hour_has_passed_is_kept_as_the_sheet_told_it():
    past = limited(people(1)[0], match=Match.UNDECIDED, next_update=NOW - timedelta(hours=1))
    squad = club(1, open_cases=(past,))
    assert changed_from(squad, squad) == ()


def test_who_left_since_the_last_sheet_is_named_and_who_is_not_known_any_more_is_counted():
    first, second, third = people(3)
    before = club(3, open_cases=(), absences=())
    left = replace(second, left=MONDAY)
    after = replace(before, athletes=(first,), former=(left,))
    assert changed_from(before, after) == (
        f"{left.name}: no longer in the squad",
        "1 athlete of the last sheet is no longer in the squad",
    )
    assert changed_from(before, replace(before, athletes=(first, second, third))) == ()


def test_a_range_that_moved_is_said_with_the_range_before():
    moved = ESTIMATES | {"c-a11": estimate(10, 12)}
    assert changed_from(club(), club(), moved) == (
        "Jonah Lindquist: return 24–26 Dec (was 5 Jan to 8 Feb)",
    )


def test_changed_limits_are_said_with_the_limits_before():
    kept = [h for h in club().open_cases if h.case.athlete_id != "a9"]
    eased = limited(people(30)[8])
    (sentence,) = changed_from(club(), club(open_cases=(*kept, eased)))
    assert sentence.endswith("(was no sprints; no jumps)")


def test_a_sentence_agreed_for_this_sheet_stands_on_it_and_only_while_it_counts():
    counts = sheet_of(club(disclosed=(agreed("Happy to talk about it himself."),)))
    assert line_of(counts, "محمد").disclosed == "Happy to talk about it himself."
    old = agreed("Old.", on=MONDAY - timedelta(days=9), until=MONDAY - timedelta(days=1))
    assert line_of(sheet_of(club(disclosed=(old,))), "محمد").disclosed == ""


def test_free_words_with_a_clinical_word_stay_off_and_are_reported():
    squad = club(disclosed=(agreed("Tore his soleus in the gym."),))
    assert line_of(sheet_of(squad), "محمد").disclosed == ""
    (kept_back,) = withheld(squad, rows_of(squad))
    assert (kept_back.athlete_id, kept_back.words) == ("a7", ("soleus",))


def test_a_signature_with_a_clinical_word_is_never_printed_but_staff_sign_by_their_names():
    head = StaffMember(staff_id="s1", name="Ann Hand")
    squad = club(staff=(head,))
    unfit = sheet_of(squad, signed="Ann Hand, calf clinic")
    assert "Not signed: a draft" in sheet_text(unfit)
    assert "calf" not in sheet_text(unfit)
    assert "Signed: Ann Hand" in sheet_text(sheet_of(squad, signed="Ann Hand"))
    assert "Not signed: a draft" in sheet_text(sheet_of(club(), signed="Ann Hand"))


def test_an_opponent_with_a_clinical_word_is_not_named_and_the_match_stays():
    fixtures = (replace(FIXTURES[1], opponent="Sam's knee scan"), FIXTURES[2])
    text = sheet_text(sheet_of(club(fixtures=fixtures)))
    assert "knee" not in text
    assert "Sat 19 Dec, 15:00, match (home)" in text
    assert "Mill Lane Athletic" in text


def test_what_stays_off_the_sheet_is_told_with_whose_and_why():
    squad = club(
        disclosed=(agreed("Tore his soleus."),),
        fixtures=(replace(FIXTURES[1], opponent="knee scan"),),
    )
    assert withheld_sentences(squad, rows_of(squad), "Ann, calf clinic") == (
        "محمد الأحمد: free words stay off the sheet, soleus tells something medical.",
        "Sat 19 Dec: the opponent stays off the sheet, knee, scan tells something medical.",
        "The signature stays off the sheet, calf tells something medical. "
        "Sign with name and role only.",
    )
    assert withheld_sentences(club(), rows_of(club()), "Ines Duarte") == ()


@pytest.mark.parametrize("changes", [{"fixtures": ()}, {"athletes": (), "open_cases": ()}])
def test_a_sheet_without_fixtures_or_without_athletes_is_still_a_sheet(changes):
    text = sheet_text(sheet_of(club(**changes)))
    assert text.startswith("Availability sheet 1\nHarbour Rovers\nWeek of 14–20 Dec\n")
    assert "Signed: Ines Duarte" in text


def test_the_text_names_every_athlete_match_and_day_of_the_week():
    squad = club()
    text = sheet_text(sheet_of(squad))
    assert all(athlete.name in text for athlete in squad.athletes)
    assert all(f.opponent in text for f in FIXTURES if f.on >= MONDAY)
    assert "Mon 14 Dec MD+2, Tue 15 Dec MD+3, Wed 16 Dec MD-3" in text


def test_an_unsigned_sheet_says_it_is_a_draft():
    assert "Not signed: a draft" in sheet_text(sheet_of(club(), signed=""))
