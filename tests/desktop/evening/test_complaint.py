"""Anyone else? A new complaint and an illness by real keys, over a real casebook."""

from functools import partial
from itertools import count
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from teamrehab.desktop.athlete.asking import Asking
from teamrehab.desktop.athlete.desk import Asked
from teamrehab.desktop.entry.pick import Candidate, matching
from teamrehab.desktop.evening.complaint_form import ComplaintForm
from teamrehab.desktop.evening.complaint_illness import AnyoneIllForm
from teamrehab.desktop.session import Session
from teamrehab.domain.availability import (
    Activity,
    AvailabilityStated,
    Limit,
    Match,
    Training,
)
from teamrehab.domain.injuries import Case, Nature, RedFlag, ReturnDecision, Side, Urgency
from teamrehab.domain.plausibility import check
from teamrehab.protocols import body_areas
from teamrehab.records import open_casebook
from teamrehab.tasks.cases import open_case
from tests.builders import athlete, clock, day
from tests.desktop.conftest import PASSPHRASE

SQUAD = (athlete(), athlete(athlete_id="a2", surname="Silva", number=9, first_name="Mei"))
KNOWN = {"a1": "left lower leg"}
ENTER, CTRL_ENTER = "\r", "\n"


class Desk:
    """A page with one of the two forms open over it, and somebody who types blindly."""

    def __init__(self, qtbot, session, form):
        self.qtbot, self.session, self.typed = qtbot, session, 0
        self.page = QWidget()
        qtbot.addWidget(self.page)
        self.asking = Asking(session, self.page)
        with qtbot.waitActive(self.page):
            self.page.show()
            self.page.activateWindow()
        save = lambda values: lambda book: open_case(book, *values)  # noqa: E731
        judge = lambda values: tuple(f for v in values for f in check(v, day(0)))  # noqa: E731
        self.asking.open(Asked(form, save), about="", case_id="", judge=judge)
        self.form, self.dialog = form, self._opened()
        self.dialog.activateWindow()
        qtbot.waitUntil(lambda: self.dialog.focusWidget() is not None)
        qtbot.waitUntil(self.dialog.isActiveWindow)

    def _opened(self) -> Any:
        return self.asking.dialog

    def type(self, keys):
        """Type each key into whatever has the cursor, and count it."""
        for key in keys:
            where = self.dialog.focusWidget()
            if key == CTRL_ENTER:
                held = Qt.KeyboardModifier.ControlModifier
                self.qtbot.keyClick(where, Qt.Key.Key_Return, held)
            elif key == ENTER:
                self.qtbot.keyClick(where, Qt.Key.Key_Return)
            else:
                self.qtbot.keyClicks(where, key)
            self.typed += 1

    def noted(self, kind):
        found: list[Any] = []
        self.session.ask(lambda book: book.all_of(kind), found.append)
        self.qtbot.waitUntil(lambda: bool(found))
        return [fact.value for fact in found[0]]

    def wait_until_saved(self):
        self.qtbot.waitUntil(lambda: self.asking.dialog is None)


@pytest.fixture
def session(qtbot, casebook_folder):
    opening = Session(
        lambda: open_casebook(casebook_folder, passphrase=PASSPHRASE, clock=clock())
    )
    qtbot.waitUntil(lambda: opening.is_open)
    yield opening
    opening.finish()


@pytest.fixture
def complaint(qtbot, session):
    return Desk(qtbot, session, ComplaintForm(SQUAD, KNOWN, body_areas(), day(0), new_ids()))


@pytest.fixture
def illness(qtbot, session):
    return Desk(qtbot, session, AnyoneIllForm(SQUAD, KNOWN, day(0), new_ids()))


def new_ids():
    return partial(lambda numbers: f"new-{next(numbers)}", count(1))


def test_a_new_complaint_takes_thirteen_keys_and_no_mouse(complaint):
    complaint.type("sil\r" + "th\r" + "r" + "nnnn" + CTRL_ENTER)
    complaint.wait_until_saved()
    assert complaint.typed <= 13
    (case,), (stated,) = complaint.noted(Case), complaint.noted(AvailabilityStated)
    assert (case.athlete_id, case.area, case.side, case.on) == (
        "a2",
        "thigh",
        Side.RIGHT,
        day(0),
    )
    assert (stated.training, stated.match) == (Training.NONE, Match.UNDECIDED)
    assert stated.next_update == case.reassess_on
    assert (case.reassess_on.date(), case.reassess_on.hour) == (day(2), 12)
    assert complaint.noted(RedFlag) == []


def test_limits_are_asked_for_where_tomorrow_has_limits_and_start_at_not_at_all(complaint):
    complaint.type("9\r" + "ank\r" + "l" + "nnnw")
    assert complaint.form.limits.fields[Activity.PACE].isVisible()
    for _ in range(list(Activity).index(Activity.GYM)):
        complaint.qtbot.keyClick(complaint.dialog.focusWidget(), Qt.Key.Key_Tab)
    complaint.type("as" + CTRL_ENTER)
    complaint.wait_until_saved()
    (stated,) = complaint.noted(AvailabilityStated)
    assert stated.training is Training.WITH_LIMITS
    assert stated.limits == tuple(Limit(each) for each in Activity if each is not Activity.GYM)


@pytest.mark.parametrize(
    ("tomorrow", "match"),
    [("f", Match.AVAILABLE), ("w", Match.UNDECIDED), ("n", Match.UNDECIDED)],
)
def test_the_match_is_what_the_question_about_tomorrow_says_of_it(complaint, tomorrow, match):
    asked = complaint.form.training.accessibleDescription()
    assert asked == "full: matches stay available; otherwise they are to be decided"
    complaint.type("9\r" + "ank\r" + "l" + "nnn" + tomorrow + CTRL_ENTER)
    complaint.wait_until_saved()
    assert [said.match for said in complaint.noted(AvailabilityStated)] == [match]


def test_a_head_that_was_hit_allows_nothing_and_raises_a_red_flag(complaint):
    complaint.type("sil\r" + "head\r" + "ny" + "nn")
    assert complaint.form.head_means.isVisible()
    assert not complaint.form.training.isVisible()
    complaint.type(CTRL_ENTER)
    complaint.wait_until_saved()
    (stated,), (flag,) = complaint.noted(AvailabilityStated), complaint.noted(RedFlag)
    assert (stated.training, stated.match) == (Training.NONE, Match.NOT_AVAILABLE)
    assert flag.closed is None


def test_nothing_is_saved_while_a_question_is_open_and_the_field_says_so(complaint):
    complaint.type("sil\r" + "th\r" + "r" + CTRL_ENTER)
    assert complaint.form.fields["Head hit or shaken"].complaint
    assert complaint.form.fields["Can train tomorrow"].complaint
    assert complaint.noted(Case) == []
    complaint.type("nnnf" + CTRL_ENTER)
    complaint.wait_until_saved()
    assert len(complaint.noted(Case)) == 1


@pytest.mark.parametrize(
    ("typed", "area"),
    [
        ("calf", "lower leg"),
        ("SOL", "lower leg"),
        ("hamstr", "thigh"),
        ("add", "hip and groin"),
    ],
)
def test_a_part_of_the_body_is_found_by_what_is_injured_there(complaint, typed, area):
    complaint.type("sil\r" + typed + "\r")
    assert complaint.form.where.value == area


def test_enter_alone_saves_no_complaint_at_any_step(complaint):
    for keys in ("sil", "\r", "th", "\r", "r", "n", "n", "n", "n"):
        complaint.type(keys + ENTER)
    assert complaint.noted(Case) == []


def test_chest_pain_is_an_emergency_whatever_is_said_of_tomorrow(illness):
    illness.type("9\r" + "yf")
    assert illness.form.flags.urgent.isVisible()
    illness.type(CTRL_ENTER)
    illness.wait_until_saved()
    (flag,), (stated,) = illness.noted(RedFlag), illness.noted(AvailabilityStated)
    assert flag.urgency is Urgency.EMERGENCY
    assert stated.training is Training.NONE


def test_a_name_half_typed_is_nobody(complaint):
    complaint.type("sil")
    assert complaint.form.who.value is None
    complaint.type(ENTER)
    assert complaint.form.whom.text() == "MEI SILVA"
    complaint.qtbot.keyClick(complaint.form.who.line, Qt.Key.Key_Backspace)
    assert complaint.form.who.value is None
    complaint.type(CTRL_ENTER)
    assert "Silv" in complaint.form.fields["Who"].complaint


def test_down_marks_the_next_of_two_who_are_meant(complaint):
    complaint.type("s")
    complaint.qtbot.keyClick(complaint.dialog.focusWidget(), Qt.Key.Key_Down)
    complaint.type(ENTER)
    assert complaint.form.whom.text() == "MEI SILVA"


def test_what_is_open_already_is_told_before_it_is_begun_twice(complaint):
    complaint.type("8\r")
    assert "left lower leg" in complaint.form.already.text()
    assert complaint.form.already.isVisible()


def test_an_illness_takes_the_return_a_clinician_expects(illness):
    illness.type("sil\r" + "nn")
    illness.qtbot.keyClick(illness.dialog.focusWidget(), Qt.Key.Key_Space)
    illness.form.expected.field.show_day(day(4))
    illness.type(CTRL_ENTER)
    illness.wait_until_saved()
    (case,), (opinion,) = illness.noted(Case), illness.noted(ReturnDecision)
    assert (case.nature, case.athlete_id) == (Nature.ILLNESS, "a2")
    assert (opinion.case_id, opinion.expected) == (case.case_id, day(4))


def test_an_illness_without_an_opinion_is_five_keys(illness):
    illness.type("9\r" + "nn" + CTRL_ENTER)
    illness.wait_until_saved()
    assert illness.typed <= 5
    assert illness.noted(ReturnDecision) == []


names = st.text(st.characters(categories=["L"]), min_size=1, max_size=8)


@given(st.lists(st.tuples(names, names, st.integers(0, 99)), max_size=8), st.data())
def test_whoever_is_typed_in_full_is_found(people, data):
    squad = [Candidate(n, f"{a} {b}", number) for n, (a, b, number) in enumerate(people)]
    for one in squad:
        assert one in matching(one.words, squad)
        assert matching(str(one.number), squad)[0].number == one.number
        part = data.draw(st.integers(1, len(one.words.split()[1])))
        assert one in matching(one.words.split()[1][:part], squad)
    assert matching("  ", squad) == []


def test_case_and_accents_do_not_hinder_a_search():
    squad = [Candidate(1, "Łukasz Żeń", 4), Candidate(2, "Zoë Brandt", 14)]
    assert [one.value for one in matching("zen", squad)] == [1]
    assert [one.value for one in matching("ZOE", squad)] == [2]
    assert [one.value for one in matching("4", squad)] == [1]
