"""The first screen of the athlete page in the whole window on a small laptop, real geometry."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QLabel

from teamrehab.desktop.appearance import Scheme
from teamrehab.domain.decision import Proposal
from teamrehab.domain.injuries import RedFlag, StageMoved, Urgency
from teamrehab.domain.measures import Feeling, SessionEntry, SessionKind, Symptom
from teamrehab.reports.wording_criteria import short_words
from teamrehab.tasks import demo
from tests.builders import ONSET

SMALL, LARGE = (1366, 768), (2560, 1440)


@pytest.fixture
def shown(qtbot, window, monkeypatch, tmp_path):
    """The demo squad in the window of a small laptop, the athletes with a case by name."""
    monkeypatch.setattr(demo, "demo_folder", lambda: tmp_path / "demo")
    window.resize(*SMALL)
    window.entrance.open_demo()
    qtbot.waitUntil(lambda: window.workplace is not None, timeout=30_000)
    qtbot.waitUntil(lambda: window.workplace.boards.has_estimates, timeout=30_000)
    return FirstScreen(qtbot, window)


class FirstScreen:
    """The window with one athlete after another beside the squad."""

    def __init__(self, qtbot, window):
        self.qtbot, self.window, self.workplace = qtbot, window, window.workplace

    @property
    def rows(self):
        return [row for row in self.workplace.boards.board.rows if row.case_id]

    def view(self, row):
        """Show an athlete and return the page once it is laid out."""
        self.workplace.show_athlete(row.athlete_id)
        view = self.workplace.athlete.view
        self.qtbot.waitUntil(lambda: row.name in view.heading.name.text())
        return view

    def all_in_sight(self, view):
        """Wait until all three answers are laid out and in sight, whole; fail if never."""
        self.qtbot.waitUntil(lambda: all(is_read(view, part) for part in parts(view)))
        return True

    def note(self, *values):
        """Note values as a form would and wait for the board that knows them."""
        before = self.workplace.boards.board
        self.window.session.write(lambda book: book.note(*values), "")
        self.qtbot.waitUntil(lambda: self.workplace.boards.board is not before)


def parts(view):
    return (view.steps.answer, view.steps.session, view.steps.missing)


def is_in_sight(view, widget):
    """Return whether the whole of a widget lies in what is seen of the page unscrolled."""
    top = widget.mapTo(view.viewport(), QPoint(0, 0))
    bottom = widget.mapTo(view.viewport(), widget.rect().bottomRight())
    seen = view.viewport().rect()
    return widget.isVisible() and seen.contains(top) and seen.contains(bottom)


def is_read(view, part):
    return is_in_sight(view, part) and not cut_off(part)


def cut_off(widget):
    """Return the labels that are given less height than their words need at their width."""
    return [
        label.text()
        for label in widget.findChildren(QLabel)
        if label.isVisible() and label.height() < label.heightForWidth(label.width())
    ]


@pytest.mark.parametrize("scheme", [Scheme.LIGHT, Scheme.DARK])
def test_the_three_answers_are_in_sight_for_every_athlete_with_a_case(
    shown, appearance, scheme
):
    appearance.choose(scheme)
    assert (shown.window.width(), shown.window.height()) == SMALL
    assert len(shown.rows) >= 5
    for row in shown.rows:
        view = shown.view(row)
        assert view.verticalScrollBar().value() == 0
        assert shown.all_in_sight(view), row.name
        for part in parts(view):
            assert part.title.text(), row.name


def test_every_open_criterion_of_the_decision_is_told_on_the_first_screen(shown):
    guided = [row for row in shown.rows if row.decision is not None]
    assert any(row.decision.missing for row in guided)
    for row in guided:
        told = shown.view(row).steps.missing.words()
        for result in row.decision.missing:
            assert short_words(result) in told


def test_a_stop_stands_first_and_says_what_lifts_it_in_sight(shown):
    row = next(r for r in shown.rows if r.decision and r.decision.proposal is Proposal.STAY)
    ids = {"case_id": row.case_id, "athlete_id": row.athlete_id, "on": ONSET}
    shown.note(RedFlag(flag_id="r1", what="swollen", urgency=Urgency.SAME_DAY, **ids))
    view = shown.view(row)
    assert view.steps.answer.title.text() == "Stop and review"
    assert "none until" in view.steps.session.title.text()
    assert "closes the red flag" in view.steps.session.words()
    assert shown.all_in_sight(view)


def test_a_sharp_symptom_tonight_replaces_the_plan_for_the_next_session(shown):
    row = next(r for r in shown.rows if r.decision and r.decision.stage == 3)
    ids = {"case_id": row.case_id, "athlete_id": row.athlete_id, "on": ONSET}
    sharp = Symptom(2, Feeling.SHARP)
    shown.note(SessionEntry(session_id="z", kind=SessionKind.REHAB, symptom=sharp, **ids))
    view = shown.view(row)
    assert "Sharp symptom today" in view.steps.answer.words()
    assert " x " not in view.steps.session.words()


def test_an_override_is_shown_with_who_decided_it_and_why(shown):
    row = next(r for r in shown.rows if r.decision and r.decision.stage == 3)
    ids = {"case_id": row.case_id, "athlete_id": row.athlete_id, "on": ONSET}
    shown.note(StageMoved(stage=4, proposed=3, why="clean in the sand", **ids))
    view = shown.view(row)
    said = view.steps.answer.words()
    assert shown.window.session.about.me.name in said
    assert "clean in the sand" in said
    assert shown.all_in_sight(view)


def test_tab_reaches_each_answer_and_reads_it_out_whole(shown):
    view = shown.view(shown.rows[0])
    for part in parts(view):
        part.setFocus(Qt.FocusReason.TabFocusReason)
        assert part.hasFocus()
        assert part.accessibleName() == part.words()


def test_on_a_large_screen_the_session_stands_beside_what_is_missing(shown):
    shown.window.resize(*LARGE)
    view = shown.view(shown.rows[0])
    session, missing = view.steps.session, view.steps.missing
    shown.qtbot.waitUntil(lambda: session.geometry().right() < missing.geometry().left())
    assert session.y() == missing.y()
