"""Trouble: known errors in their own words, our mistakes once, without values."""

import sys
import threading

import pytest
from PySide6.QtWidgets import QPlainTextEdit, QPushButton

from teamrehab.desktop.logbook import close_logbook, open_logbook
from teamrehab.desktop.trouble import (
    MistakeDialog,
    MistakeHook,
    Notice,
    describe,
    is_known,
    tell,
)
from teamrehab.records import WrongPassphraseError

SECRET = "grade-3-soleus-tear"


def broken(diagnosis=SECRET):
    note = f"{diagnosis} of the athlete"
    raise ValueError(note)


def mistake(cause=broken):
    with pytest.raises((ValueError, RuntimeError)) as caught:
        cause()
    return caught.value


def chained():
    try:
        broken()
    except ValueError as error:
        raise RuntimeError(SECRET) from error


@pytest.fixture
def hook(qapp, monkeypatch):
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    shown: list[str] = []
    hook = MistakeHook(shown.append)
    hook.install()
    yield hook, shown
    hook.deleteLater()


def test_only_our_own_errors_are_fit_to_be_shown():
    assert is_known(WrongPassphraseError())
    assert not is_known(ValueError(SECRET))


def test_a_description_says_where_and_what_kind_but_no_value():
    words = describe(mistake(chained))
    assert SECRET not in words
    assert "RuntimeError" in words
    assert "builtins.ValueError" in words
    assert "desktop/test_trouble.py:" in words
    assert "PySide6" in words


def test_a_mistake_in_a_slot_is_shown_once_however_often_it_happens(qtbot, hook):
    _hook, shown = hook
    error = mistake()
    for _ in range(3):
        tell(error)
    qtbot.waitUntil(lambda: bool(shown))
    qtbot.wait(10)
    assert len(shown) == 1


def test_a_mistake_that_repeats_fills_no_log(qtbot, hook, tmp_path):
    deaths = open_logbook(tmp_path)
    for _ in range(50):
        tell(mistake())
    close_logbook(deaths)
    lines = (tmp_path / "teamrehab.log").read_text(encoding="utf-8").splitlines()
    assert len(lines) == 1
    assert "mistake kind=ValueError place=test_trouble.py:" in lines[0]


def test_another_mistake_is_shown_too(qtbot, hook):
    _hook, shown = hook
    tell(mistake())
    tell(mistake(chained))
    qtbot.waitUntil(lambda: len(shown) == 2)


def test_a_mistake_on_another_thread_is_shown_on_this_one(qtbot, qapp, monkeypatch):
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    shown: list[threading.Thread] = []
    hook = MistakeHook(lambda _words: shown.append(threading.current_thread()))
    hook.install()
    worker = threading.Thread(target=broken)
    worker.start()
    worker.join()
    qtbot.waitUntil(lambda: bool(shown))
    assert shown == [threading.main_thread()]
    hook.deleteLater()


def test_a_mistake_while_one_is_shown_opens_no_second_dialog(qtbot, qapp):
    shown: list[str] = []

    def show(words):
        shown.append(words)
        busy._tell(describe(mistake(chained)))

    busy = MistakeHook(show)
    busy._tell(describe(mistake()))
    assert len(shown) == 1
    busy.deleteLater()


def test_an_interrupt_from_the_keyboard_is_no_mistake(qtbot, hook, capsys):
    caught, shown = hook
    caught.catch(KeyboardInterrupt, KeyboardInterrupt(), None)
    qtbot.wait(10)
    assert shown == []


def test_the_dialog_hands_over_exactly_what_it_shows(qtbot, qapp):
    dialog = MistakeDialog(describe(mistake()))
    qtbot.addWidget(dialog)
    (details,) = dialog.findChildren(QPlainTextEdit)
    copy = next(b for b in dialog.findChildren(QPushButton) if b.text() == "&Copy")
    copy.click()
    assert qapp.clipboard().text() == details.toPlainText() == dialog.description


def test_a_notice_says_its_words_plainly_until_it_is_put_away(qtbot):
    notice = Notice()
    qtbot.addWidget(notice)
    assert notice.words == ""
    notice.say("<b>The disk is full.</b>")
    assert notice.words == notice.accessibleName() == "<b>The disk is full.</b>"
    (away,) = notice.findChildren(QPushButton)
    away.click()
    assert notice.words == ""
