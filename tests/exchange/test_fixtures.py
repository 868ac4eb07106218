import re
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from teamrehab.domain.athletes import Team
from teamrehab.exchange.fixtures import FIXTURES, preview_fixtures
from teamrehab.exchange.problems import UnreadableFileError

TODAY = date(2026, 10, 5)
CLUB = Team(name="Home Club", zone="Europe/Warsaw")


@pytest.fixture
def calendar(tmp_path):
    def read(*events, head="", today=TODAY, team=CLUB):
        body = "".join(f"BEGIN:VEVENT\n{event.strip()}\nEND:VEVENT\n" for event in events)
        text = f"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//x\n{head}{body}END:VCALENDAR\n"
        path = tmp_path / "fixtures.ics"
        path.write_bytes(text.replace("\n", "\r\n").encode())
        return preview_fixtures(path, team, today)

    return read


def only(preview):
    assert not preview.problems
    (fixture,) = preview.fixtures
    return fixture


MATCH = "UID:m1\nDTSTART:20261010T130000Z\nSUMMARY:Home Club v Away Club"

# RFC 5545 section 3.6.1, the first example event (its own text, dates and all)
RFC_SINGLE = """UID:19970901T130000Z-123401@example.com
DTSTAMP:19970901T130000Z
DTSTART:19970903T163000Z
DTEND:19970903T190000Z
SUMMARY:Annual Employee Review
CLASS:PRIVATE
CATEGORIES:BUSINESS,HUMAN RESOURCES"""

# RFC 5545 section 3.6.1, the third example: an anniversary every year, a day without a time
RFC_YEARLY = """UID:19970901T130000Z-123403@example.com
DTSTAMP:19970901T130000Z
DTSTART;VALUE=DATE:19971102
SUMMARY:Our Blissful Anniversary
TRANSP:TRANSPARENT
CLASS:CONFIDENTIAL
CATEGORIES:ANNIVERSARY,PERSONAL,SPECIAL OCCASION
RRULE:FREQ=YEARLY"""

# RFC 5545 section 3.6.1, the fourth example: several days without a time
RFC_DAYS = """UID:20070423T123432Z-541111@example.com
DTSTAMP:20070423T123432Z
DTSTART;VALUE=DATE:20070628
DTEND;VALUE=DATE:20070709
SUMMARY:Festival International de Jazz de Montreal
TRANSP:TRANSPARENT"""

# RFC 5545 section 3.6.5: the time zone of New York as it is written out there (from 1987)
RFC_ZONE = """BEGIN:VTIMEZONE
TZID:Somewhere/New_York
BEGIN:STANDARD
DTSTART:19671029T020000
RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10
TZOFFSETFROM:-0400
TZOFFSETTO:-0500
TZNAME:EST
END:STANDARD
BEGIN:DAYLIGHT
DTSTART:19870405T020000
RRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=4
TZOFFSETFROM:-0500
TZOFFSETTO:-0400
TZNAME:EDT
END:DAYLIGHT
END:VTIMEZONE
"""


def as_match(event):
    """Return an event of the standard under the words of a match; its days stay."""
    return re.sub(r"SUMMARY:.*", "SUMMARY:Home Club v Away Club", event)


def test_the_single_event_of_the_standard_is_read(calendar):
    found = only(calendar(as_match(RFC_SINGLE), today=date(1997, 9, 1)))
    assert found.fixture_id == "19970901T130000Z-123401@example.com"
    assert found.kick_off == datetime(1997, 9, 3, 16, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    ("event", "today", "said"),
    [
        (RFC_SINGLE, date(1997, 9, 1), "Annual Employee Review"),
        (RFC_YEARLY, date(2026, 6, 1), "Our Blissful Anniversary"),
        (RFC_DAYS, date(2007, 6, 1), "Festival International de Jazz de Montreal"),
    ],
)
def test_what_the_standard_s_own_events_say_is_no_match(calendar, event, today, said):
    found = calendar(event, today=today)
    assert found.fixtures == ()
    assert [problem.what.value for problem in found.problems] == [said]


def test_the_yearly_day_of_the_standard_falls_once_into_a_season(calendar):
    found = calendar(as_match(RFC_YEARLY), today=date(2026, 6, 1)).fixtures
    assert [f.on for f in found] == [date(2025, 11, 2), date(2026, 11, 2)]
    assert all(f.kick_off is None for f in found)


def test_the_days_of_the_standard_count_from_the_first(calendar):
    assert only(calendar(as_match(RFC_DAYS), today=date(2007, 6, 1))).on == date(2007, 6, 28)


def test_weekly_until_a_day_as_in_the_standard(calendar):
    # RFC 5545 section 3.8.5.3, "Weekly until December 24, 1997": 17 Tuesdays, last Dec 23
    event = """UID:w
DTSTART;TZID=America/New_York:19970902T090000
RRULE:FREQ=WEEKLY;UNTIL=19971224T000000Z
SUMMARY:v x"""
    found = calendar(event, today=date(1997, 10, 1)).fixtures
    assert len(found) == 17
    assert found[-1].on == date(1997, 12, 23)
    # 9:00 AM EDT in September, 9:00 AM EST in December
    assert [f.kick_off.astimezone(UTC).hour for f in (found[0], found[-1])] == [13, 14]


def test_every_other_week_on_two_days_as_in_the_standard(calendar):
    # RFC 5545 section 3.8.5.3, "Every other week on Tuesday and Thursday, for 8 occurrences"
    event = """UID:w
DTSTART;TZID=America/New_York:19970902T090000
RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH
SUMMARY:v x"""
    days = [f.on for f in calendar(event, today=date(1997, 9, 1)).fixtures]
    assert [(d.month, d.day) for d in days] == [
        (9, 2), (9, 4), (9, 16), (9, 18), (9, 30), (10, 2), (10, 14), (10, 16),
    ]  # fmt: skip


def test_a_time_zone_the_file_defines_itself_is_used(calendar):
    event = "UID:z\nDTSTART;TZID=Somewhere/New_York:20261010T200000\nSUMMARY:v x"
    found = only(calendar(event, head=RFC_ZONE))
    assert found.kick_off == datetime(2026, 10, 11, 0, 0, tzinfo=UTC)
    assert found.on == date(2026, 10, 10)  # 02:00 in Warsaw belongs to the evening before


def test_a_time_without_a_zone_is_the_clubs_own(calendar):
    found = only(calendar("UID:f\nDTSTART:20261010T150000\nSUMMARY:v x"))
    assert found.kick_off == datetime(2026, 10, 10, 15, tzinfo=ZoneInfo("Europe/Warsaw"))


@pytest.mark.parametrize(
    ("summary", "opponent", "home"),
    [
        ("Home Club v Away Club", "Away Club", True),
        ("Away Club v Home Club", "Away Club", False),
        ("Home Club vs. Away Club", "Away Club", True),
        ("HOME CLUB Women - Away Club", "Away Club", True),
        ("Home Club @ Away Club", "Away Club", False),
        ("One Club v Other Club", "One Club v Other Club", True),
        ("Home v Fernwick Town", "Fernwick Town", True),
        ("Away v Fernwick Town", "Fernwick Town", False),
        ("Fernwick Town - Away", "Fernwick Town", False),
        ("Fernwick Town (A)", "Fernwick Town", False),
        ("Home: Fernwick Town", "Fernwick Town", True),
        ("vs Fernwick Town", "Fernwick Town", True),
        ("@ Fernwick Town", "Fernwick Town", False),
        ("at Fernwick Town", "Fernwick Town", False),
        ("Home Club v Fernwick Town (away)", "Fernwick Town", False),
    ],
)
def test_opponent_and_ground_come_from_the_summary(calendar, summary, opponent, home):
    found = only(calendar(f"UID:m\nDTSTART:20261010T130000Z\nSUMMARY:{summary}"))
    assert (found.opponent, found.home) == (opponent, home)


@pytest.mark.parametrize(
    ("summary", "opponent", "home"),
    [
        ("Velmarsh v Fernwick Town", "Fernwick Town", True),
        ("Fernwick Town v Harriers U23", "Fernwick Town", False),
        ("Velm. Harriers - Fernwick", "Fernwick", True),
        ("Fernwick Town v VH", "Fernwick Town", False),
        ("Dale Harriers v Velmarsh Harriers", "Dale Harriers", False),
        ("Harriers v Velmarsh Harriers Women", "Harriers", False),
        ("Velmarsh Town v Fernwick", "Velmarsh Town v Fernwick", True),
    ],
)
def test_the_team_s_own_name_is_known_when_it_is_shortened(calendar, summary, opponent, home):
    match = MATCH.replace("Home Club v Away Club", summary)
    found = only(calendar(match, team=Team(name="Velmarsh Harriers", zone="Europe/Warsaw")))
    assert (found.opponent, found.home) == (opponent, home)


@pytest.mark.parametrize(
    "summary",
    ["Team dinner", "Team dinner at the harbour", "Physio - late group", "Home Club AGM", ""],
)
def test_an_event_without_an_opponent_is_named_and_is_no_match(calendar, summary):
    found = calendar(MATCH.replace("m1", "d1").replace("Home Club v Away Club", summary), MATCH)
    assert [f.fixture_id for f in found.fixtures] == ["m1"]
    (problem,) = found.problems
    assert (problem.line, problem.column) == (4, "SUMMARY")
    assert "not read as a match" in str(problem)
    assert '"Home Club v Opponent"' in problem.what.remedy


def test_what_is_no_match_and_years_away_is_not_listed(calendar):
    far = MATCH.replace("2026", "2019").replace("Home Club v Away Club", "Team dinner")
    assert calendar(far, MATCH).problems == calendar(MATCH).problems


@pytest.mark.parametrize(
    ("event", "column"),
    [
        ("UID:a\nDTSTART;TZID=Nowhere/Land:20261010T150000\nSUMMARY:v x", "DTSTART"),
        ("UID:a\nDTSTART:2026garbage\nSUMMARY:v x", "DTSTART"),
        ("UID:a\nSUMMARY:v x", "DTSTART"),
        ("UID:a\nDTSTART:02261010T150000Z\nSUMMARY:v x", "DTSTART"),
        ("DTSTART:20261010T150000Z\nSUMMARY:v x", "UID"),
        ("UID:a\nDTSTART:20261010T150000Z\nRRULE:FREQ=SECONDLY\nSUMMARY:v x", "RRULE"),
        ("UID:a\nDTSTART:20261010T150000Z\nRRULE:FREQ=DAILY;INTERVAL=0\nSUMMARY:v x", "RRULE"),
        (
            "UID:a\nDTSTART:20261010T150000Z\nRRULE:FREQ=DAILY;BYSECOND=1,2\nSUMMARY:v x",
            "RRULE",
        ),
        ("UID:a\nDTSTART:20261010T150000Z\nRRULE:FREQ=WEEKLY;COUNT=many\nSUMMARY:v x", "RRULE"),
        ("UID:a\nDTSTART:20261010T150000Z\nSEQUENCE:newest\nSUMMARY:v x", "SEQUENCE"),
        ("UID:a\nDTSTART:20261010T150000Z\nSUMMARY:Home Club v \u202ey", "SUMMARY"),
    ],
)
def test_an_event_that_cannot_be_read_is_named_and_the_others_are_kept(calendar, event, column):
    found = calendar(event, MATCH)
    assert [f.fixture_id for f in found.fixtures] == ["m1"]
    assert [(p.line, p.column) for p in found.problems] == [(4, column)]
    assert found.problems[0].what.remedy


def test_an_event_whose_opponent_holds_unfit_words_is_named_and_left_out(tmp_path):
    def calf(text):
        return tuple(word for word in text.split() if word == "calf")

    path = tmp_path / "fixtures.ics"
    other = "UID:m2\nDTSTART:20261011T130000Z\nSUMMARY:calf scan for Sam"
    match = MATCH.replace("Home Club", "Home calf Club")
    events = "".join(f"BEGIN:VEVENT\n{event}\nEND:VEVENT\n" for event in (match, other))
    path.write_text(f"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//x\n{events}END:VCALENDAR\n")
    found = preview_fixtures(path, Team(name="Home calf Club"), TODAY, unfit=calf)
    assert [f.fixture_id for f in found.fixtures] == ["m1"], "the own name is not looked at"
    (problem,) = found.problems
    assert (problem.line, problem.column, problem.what.value) == (9, "SUMMARY", "calf")


def test_of_two_revisions_the_higher_counts_wherever_it_stands(calendar):
    moved = MATCH.replace("20261010", "20261011") + "\nSEQUENCE:2"
    for events in ([moved, MATCH], [MATCH, moved]):
        found = only(calendar(*events))
        assert (found.on, found.revision) == (date(2026, 10, 11), 2)


def test_a_cancelled_match_is_kept_as_cancelled(calendar):
    assert only(calendar(MATCH + "\nSTATUS:CANCELLED\nSEQUENCE:1")).cancelled
    assert only(calendar(MATCH, head="METHOD:CANCEL\n")).cancelled
    assert not only(calendar(MATCH)).cancelled


def test_one_match_of_a_series_can_be_moved_and_another_left_out(calendar):
    series = """UID:s
DTSTART;TZID=Europe/Warsaw:20261010T150000
RRULE:FREQ=WEEKLY;COUNT=4
EXDATE;TZID=Europe/Warsaw:20261017T150000
SUMMARY:Home Club v Away Club"""
    moved = """UID:s
RECURRENCE-ID:20261024T130000Z
DTSTART;TZID=Europe/Warsaw:20261025T180000
SEQUENCE:3
SUMMARY:Away Club v Home Club"""
    found = calendar(series, moved).fixtures
    assert [(f.fixture_id, f.on.day, f.home, f.revision) for f in found] == [
        ("s/2026-10-10", 10, True, 0),
        ("s/2026-10-24", 25, False, 3),
        ("s/2026-10-31", 31, True, 0),
    ]


def test_matches_beyond_a_year_are_counted_not_taken(calendar):
    found = calendar(MATCH, MATCH.replace("m1", "m2").replace("2026", "2029"))
    assert (len(found.fixtures), found.outside) == (1, 1)


def test_no_more_than_two_thousand_matches_are_taken_and_that_is_said(calendar):
    event = "UID:{}\nDTSTART:20260901T150000Z\nRRULE:FREQ=DAILY\nSUMMARY:v x"
    found = calendar(*(event.format(number) for number in range(8)))
    assert len(found.fixtures) == FIXTURES
    assert "2000" in str(found.problems[-1])


@pytest.mark.parametrize(
    "content", [b"", b"hello", b"BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:1\n", b"\x00\x01\x02" * 50]
)
def test_a_file_that_is_no_calendar_is_answered_with_one_sentence(tmp_path, content):
    path = tmp_path / "x.ics"
    path.write_bytes(content)
    with pytest.raises(UnreadableFileError):
        preview_fixtures(path, CLUB, TODAY)


def test_a_million_events_are_refused_before_they_are_parsed(tmp_path):
    path = tmp_path / "x.ics"
    path.write_bytes(b"BEGIN:VEVENT\nEND:VEVENT\n" * 20_000)
    with pytest.raises(UnreadableFileError, match="20000 events"):
        preview_fixtures(path, CLUB, TODAY)
