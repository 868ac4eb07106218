"""The session: one thread for the casebook, answers on the window's thread."""

import gc
import threading
import weakref

import pytest
from PySide6.QtCore import QObject, Signal

from teamrehab.desktop.session import Session
from tests.fakes import FakeCasebook, RefusedForTest


@pytest.fixture
def book():
    return FakeCasebook()


@pytest.fixture
def session(qtbot, book):
    session = Session(lambda: book)
    with qtbot.waitSignal(session.opened):
        pass
    yield session
    session.finish()


def test_the_window_knows_the_casebook_without_asking_it(session, book):
    assert session.about.team == book.team
    assert session.about.me == book.me
    assert session.is_open


def test_a_question_runs_on_one_other_thread_and_is_answered_on_this_one(session, qtbot):
    asked, answered = [], []

    def question(_book):
        asked.append(threading.current_thread())
        return len(asked)

    def answer(_count):
        answered.append(threading.current_thread())

    for _ in range(20):
        session.ask(question, answer)
    qtbot.waitUntil(lambda: len(answered) == 20)
    assert len(set(asked)) == 1
    assert threading.main_thread() not in asked
    assert set(answered) == {threading.main_thread()}


def test_answers_come_in_the_order_of_the_questions(session, qtbot):
    answers: list[int] = []
    for number in range(50):
        session.ask(lambda _book, n=number: n, answers.append)
    qtbot.waitUntil(lambda: len(answers) == 50)
    assert answers == list(range(50))


def test_a_save_is_told_to_everyone_after_the_one_who_asked(session, qtbot):
    heard = []
    session.noted.connect(lambda case_id: heard.append(f"noted {case_id}"))
    session.board_changed.connect(lambda: heard.append("board"))
    session.write(lambda book: book.note("value"), "c1", lambda _receipt: heard.append("saved"))
    qtbot.waitUntil(lambda: len(heard) == 3)
    assert heard == ["saved", "noted c1", "board"]


def test_a_refused_save_is_told_only_to_the_one_who_asked(session, qtbot, book):
    book.refusal = RefusedForTest("the disk is full; nothing was written")
    heard: list[object] = []
    loud: list[object] = []
    session.noted.connect(loud.append)
    session.failed.connect(loud.append)
    session.write(lambda b: b.note("value"), "c1", loud.append, heard.append)
    qtbot.waitUntil(lambda: bool(heard))
    assert heard == [book.refusal]
    assert loud == []


def test_an_error_nobody_took_reaches_the_signal(session, qtbot, book):
    book.refusal = RefusedForTest("no")
    with qtbot.waitSignal(session.failed) as told:
        session.write(lambda b: b.note("value"), "c1")
    assert told.args == [book.refusal]


def test_closing_waits_for_what_was_asked_before(session, qtbot, book):
    for number in range(30):
        session.write(lambda b, n=number: b.note(n), "c1")
    with qtbot.waitSignal(session.closed):
        session.close()
    assert book.noted == list(range(30))
    assert book.closed


def test_after_closing_nothing_is_asked(session, qtbot, book):
    with qtbot.waitSignal(session.closed):
        session.close()
    session.write(lambda b: b.note("late"), "c1")
    session.close()
    assert book.noted == []
    assert not session.is_open


def test_trouble_while_closing_is_told_and_the_session_ends_all_the_same(session, qtbot, book):
    book.refusal = RefusedForTest("the backup could not be verified")
    with qtbot.waitSignals([session.failed, session.closed]):
        session.close()


def test_a_casebook_that_does_not_open_says_why(qtbot):
    def locked():
        raise RefusedForTest("wrong passphrase")

    session = Session(locked)
    with qtbot.waitSignal(session.failed) as told:
        pass
    assert str(told.args[0]) == "wrong passphrase"
    assert not session.is_open
    with pytest.raises(RuntimeError):
        _ = session.about


class Listener(QObject):
    heard = Signal(object)

    def take(self, answer):
        self.heard.emit(answer)


def test_an_answer_for_a_page_that_is_gone_is_dropped(session, qtbot):
    gate = threading.Event()
    after: list[int] = []
    listener = Listener()
    session.ask(lambda _book: gate.wait(5), listener.take)
    listener.deleteLater()
    qtbot.wait(1)
    gate.set()
    session.ask(lambda _book: 1, after.append)
    qtbot.waitUntil(lambda: after == [1])


def test_a_question_keeps_no_page_alive_once_it_is_answered(session, qtbot):
    listener = Listener()
    with qtbot.waitSignal(listener.heard):
        session.ask(lambda _book: 1, listener.take)
    gone = weakref.ref(listener)
    del listener
    gc.collect()
    assert gone() is None


def test_twenty_thousand_signals_do_no_harm(qapp):
    class Bell(QObject):
        rung = Signal(bool)

    counts = {True: 0, False: 0}

    def count(value):
        counts[value] += 1

    bell = Bell()
    bell.rung.connect(count)
    for number in range(20_000):
        bell.rung.emit(number % 2 == 0)
    assert counts == {True: 10_000, False: 10_000}
