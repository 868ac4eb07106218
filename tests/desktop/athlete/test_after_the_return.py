"""The page of an athlete who is back, whose injury came again, or who plays tomorrow."""

from typing import Any

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.entry.live_answer import LiveAnswer
from teamrehab.domain.days import Fixture
from teamrehab.domain.injuries import CaseClosed, Clearance, ProtocolChosen, Scope
from tests.builders import case, day, stated

OURS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
BACK = (
    Clearance(**OURS, on=day(18), scope=Scope.MATCH, signed_by="Ines Duarte"),
    CaseClosed(**OURS, on=day(18)),
)


def test_who_is_back_is_watched_on_the_page_without_an_open_case(opened, qtbot):
    view = opened.show("a1")
    assert not view.watch.isVisible()
    opened.note(*BACK)
    qtbot.waitUntil(view.watch.isVisible)
    assert view.healthy.isVisible()
    assert view.watch.text().startswith("Calf strain: Day 2 after the return: watched")


def test_an_injury_that_came_again_says_how_soon(opened, qtbot):
    again = case(case_id="c2", on=day(20), area="lower leg", recurrence_of="c1")
    opened.show("a1")
    opened.note(*BACK, again, stated(again))
    words = "early recurrence, 2 days after the return"
    qtbot.waitUntil(lambda: words in opened.page.view.case.course.text())


def test_the_day_before_a_match_page_and_form_say_that_nothing_is_tested_to_the_limit(opened):
    view = opened.show("a1")
    assert "No maximal test" not in view.steps.answer.words()
    opened.note(Fixture(fixture_id="m2", on=day(21), opponent="Quarry Town"))
    assert "No maximal test today" in view.steps.answer.words()
    dialog = opened.ask(Act.TEST)
    (live,) = dialog.findChildren(LiveAnswer)
    assert "No maximal test today" in live.caution.text()
    dialog.reject()


def test_a_protocol_that_cannot_be_read_here_is_not_shown_as_none(opened):
    view = opened.show("a1")
    opened.note(ProtocolChosen(**OURS, on=day(20), protocol="wrist_sprain", version="3-club"))
    assert "version 3-club, which is not at hand" in view.steps.answer.words()
    assert "follows no protocol" not in view.steps.answer.words()
