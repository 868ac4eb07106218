"""How many keys each task of the evening and of the injury day takes, and what it decides.

The bounds stand in a table of the contributor guide; each task is typed here in the whole
window, every key counted, from the moment its place is on the screen.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.evening.place import Part
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.days import Exposure
from teamrehab.domain.injuries import (
    Case,
    Certainty,
    Diagnosis,
    LevelMoved,
    Nature,
    ProtocolChosen,
    RedFlag,
    Side,
    StageMoved,
    Urgency,
)
from teamrehab.domain.measures import (
    Done,
    Feeling,
    HeelRaiseTest,
    Knee,
    MorningResponse,
    Raises,
    SessionEntry,
    Symptom,
)
from tests.builders import ONSET, case
from tests.desktop.test_undo import undo_action

BEGIN, END = "<!-- keys: made by tests/desktop/test_keys.py -->", "<!-- end of keys -->"
GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"
BEGAN = ONSET - timedelta(days=6)
OURS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
NAMED = {
    "\n": Qt.Key.Key_Return,
    "\t": Qt.Key.Key_Tab,
    "^": Qt.Key.Key_Up,
    "v": Qt.Key.Key_Down,
    ">": Qt.Key.Key_Right,
}
CTRL = Qt.KeyboardModifier.ControlModifier


class Hands:
    """Types into whatever has the cursor, and counts every key."""

    def __init__(self, qtbot, window):
        self.qtbot, self.window, self.pressed = qtbot, window, 0

    def type(self, keys):
        """Press one key after the other; the signs of ``NAMED`` stand for named keys."""
        for key in keys:
            self._press(NAMED.get(key, key), Qt.KeyboardModifier.NoModifier)

    def hold(self, key, held=CTRL):
        """Press one key with another held down: one stroke."""
        self._press(key, held)

    def _press(self, key, held):
        self.qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
        self.qtbot.keyClick(QApplication.focusWidget(), key, held)
        self.pressed += 1

    def open(self, *press):
        """Open a form by a key, and wait until the cursor is in it."""
        self.hold(*press)
        self.until(self._in_a_form)

    def _in_a_form(self):
        form, cursor = QApplication.activeModalWidget(), QApplication.focusWidget()
        return form is not None and cursor is not None and form.isAncestorOf(cursor)

    def go(self, part):
        """Stand where the task begins: this is not counted."""
        self.window.do("after")
        self.window.workplace.after_training.show_part(part)

    def look_at(self, athlete_id):
        """Have an athlete's page beside the squad: this is not counted."""
        self.window.do("squad")
        self.window.workplace.show_athlete(athlete_id)
        self.window.workplace.squad.table.setFocus()

    def facts(self, kind):
        """Return what stands of a kind."""
        found: list[Any] = []
        self.window.session.ask(lambda book: book.all_of(kind), found.append)
        self.qtbot.waitUntil(lambda: bool(found))
        return [fact.value for fact in found[0]]

    def until(self, true):
        self.qtbot.waitUntil(lambda: bool(true()))


def note(hands, *values):
    """Write what the task starts from, and wait until the window shows it."""
    seen: list[Any] = []
    hands.window.session.write(lambda book: book.note(*values), "", seen.append)
    hands.until(lambda: bool(seen))
    board = hands.window.workplace.boards
    hands.until(lambda: board.board is not None and board.board.squad.open_cases)
    hands.until(lambda: board.has_estimates)


def calf_case():
    """Return an open calf case in its second stage."""
    return (
        case(on=BEGAN),
        Diagnosis(
            on=BEGAN,
            injury="calf_strain",
            muscle="soleus",
            certainty=Certainty.CONFIRMED,
            **OURS,
        ),
        ProtocolChosen(on=BEGAN, protocol="calf_strain", version="1", **OURS),
        AvailabilityStated(on=BEGAN, training=Training.NONE, match=Match.NOT_AVAILABLE, **OURS),
        StageMoved(on=BEGAN + timedelta(days=3), stage=2, proposed=2, **OURS),
    )


def an_evening_row(hands):
    hands.go(Part.EVENING)
    hands.type("Y14\n")
    hands.until(lambda: hands.facts(SessionEntry))
    (entry,) = hands.facts(SessionEntry)
    said = (entry.done, entry.symptom, entry.effort, entry.minutes)
    assert said == (Done.AS_PLANNED, Symptom(1), 4, 45)


def a_correction(hands):
    hands.go(Part.EVENING)
    hands.type("Y14\n")
    hands.until(lambda: hands.facts(SessionEntry))
    hands.until(lambda: not hands.window.workplace.after_training.has_unsaved)
    hands.pressed = 0
    hands.type("YY>2\n")
    hands.until(lambda: [e.symptom for e in hands.facts(SessionEntry)] == [Symptom(2)])


def an_undo(hands):
    hands.go(Part.EVENING)
    hands.type("Y14\n")
    hands.until(lambda: hands.facts(SessionEntry))
    hands.until(lambda: undo_action(hands.window).isEnabled())
    hands.pressed = 0
    hands.hold(Qt.Key.Key_Z)
    hands.until(lambda: not hands.facts(SessionEntry))


def a_morning(hands):
    hands.go(Part.MORNING)
    hands.type("0\n")
    hands.until(lambda: hands.facts(MorningResponse))
    assert [m.symptom for m in hands.facts(MorningResponse)] == [Symptom(0)]


def a_test(hands):
    hands.go(Part.EVENING)
    hands.type("T14\t28\t\t\t2p\t")  # counts, no height, symptom; then the range
    hands.type("k\n" + "KK\n")
    hands.until(lambda: hands.facts(HeelRaiseTest))
    (test,) = hands.facts(HeelRaiseTest)
    counts = (test.left, test.right, test.symptom, test.full_range, test.painkiller)
    assert counts == (Raises(14), Raises(28), Symptom(2, Feeling.PAIN), True, False)


def a_level(hands):
    hands.go(Part.EVENING)
    hands.type("Y14\n")
    hands.until(lambda: hands.facts(SessionEntry))
    closing(hands)
    hands.pressed = 0
    hands.type("A")
    hands.until(lambda: hands.facts(LevelMoved))
    (moved,) = hands.facts(LevelMoved)
    assert (moved.level, moved.proposed) == (2, 2)


def closing(hands):
    hands.window.workplace.after_training.show_closing()
    view = hands.window.workplace.after_training.closing
    hands.until(lambda: view.isVisible() and view.list.lines)
    view.begin()


def a_stage(hands):
    ready = [Raises(15), Raises(15)]
    legs: dict[str, Any] = {"left": ready[0], "right": ready[1], "symptom": Symptom(0)}
    note(
        hands,
        HeelRaiseTest(test_id="h1", on=ONSET, **legs, **OURS),
        HeelRaiseTest(test_id="h2", on=ONSET, knee=Knee.BENT, **legs, **OURS),
    )
    hands.go(Part.EVENING)
    closing(hands)
    hands.pressed = 0
    hands.type("AY")
    hands.until(lambda: [m.stage for m in hands.facts(StageMoved)] == [2, 3])


def a_complaint(hands):
    closing_empty(hands)
    hands.open("c", Qt.KeyboardModifier.NoModifier)
    hands.type("sil\n" + "low\n" + "l" + "nnnn")
    hands.hold(Qt.Key.Key_Return)
    hands.until(lambda: len(hands.facts(Case)) == 2)
    new = next(c for c in hands.facts(Case) if c.athlete_id == "a2")
    assert (new.area, new.side, new.on) == ("lower leg", Side.LEFT, ONSET)
    hands.until(lambda: undo_action(hands.window).isEnabled())
    assert not undo_action(hands.window).text().rstrip().endswith(",")


def closing_empty(hands):
    hands.go(Part.EVENING)
    hands.window.workplace.after_training.show_closing()
    view = hands.window.workplace.after_training.closing
    hands.until(view.isVisible)
    view.begin()


def somebody_ill(hands):
    closing_empty(hands)
    hands.open("i", Qt.KeyboardModifier.NoModifier)
    hands.type("9\n" + "nn")
    hands.hold(Qt.Key.Key_Return)
    hands.until(lambda: len(hands.facts(Case)) == 2)
    ill = next(c for c in hands.facts(Case) if c.athlete_id == "a2")
    assert (ill.nature, ill.on) == (Nature.ILLNESS, ONSET)


def an_injury(hands):
    hands.look_at("a2")
    hands.open(Qt.Key.Key_I)
    hands.type("l\tl\t\tn\tn\tn")
    hands.hold(Qt.Key.Key_Return)
    hands.until(lambda: len(hands.facts(Case)) == 2)
    new = next(c for c in hands.facts(Case) if c.athlete_id == "a2")
    assert (new.side, new.area) == (Side.LEFT, "lower leg")


def a_red_flag(hands):
    hands.look_at("a1")
    hands.open(Qt.Key.Key_R)
    hands.type("calf warm\td")
    hands.hold(Qt.Key.Key_Return)
    hands.until(lambda: hands.facts(RedFlag))
    (flag,) = hands.facts(RedFlag)
    assert (flag.what, flag.urgency) == ("calf warm", Urgency.SAME_DAY)


def a_red_flag_from_a_row(hands):
    hands.go(Part.EVENING)
    hands.type("Y54\nyynn\n")
    hands.until(lambda: hands.facts(RedFlag))
    assert [flag.urgency for flag in hands.facts(RedFlag)] == [Urgency.SAME_DAY]
    assert len(hands.facts(SessionEntry)) == 1


def an_attendance(hands):
    hands.go(Part.TEAM_SESSION)
    hands.type("75\n" + "6\n" + "5\n")
    hands.hold(Qt.Key.Key_Return)  # one of the two may not train: asked once
    hands.hold(Qt.Key.Key_Return)
    hands.until(lambda: len(hands.facts(Exposure)) == 2)
    assert {(e.minutes, e.effort) for e in hands.facts(Exposure)} == {(75, 6), (75, 5)}


@dataclass(frozen=True)
class Task:
    """A task, at most how many keys it takes, and what it decides."""

    words: str
    most: int
    decides: str
    typed: Callable[[Hands], object]


TASKS = (
    Task("a row of the evening", 4, "done as planned, symptom, effort", an_evening_row),
    Task("a row corrected", 5, "what was done, in a fact that replaces it", a_correction),
    Task("the last save taken back", 1, "what stood before stands again", an_undo),
    Task(
        "a row with a red flag", 9, "four answers, a doctor the same day", a_red_flag_from_a_row
    ),
    Task("a heel-raise test in the row", 17, "counts, symptom, range, no painkiller", a_test),
    Task("a level accepted", 1, "the level from the next session on", a_level),
    Task("a stage opened", 2, "the stage, under the athlete's name", a_stage),
    Task("a new complaint", 15, "who, where, side, training tomorrow", a_complaint),
    Task("somebody ill", 6, "who, training tomorrow", somebody_ill),
    Task("a morning", 2, "whether yesterday's moves stand", a_morning),
    Task("the day of an injury", 12, "side, where, red flags, training tomorrow", an_injury),
    Task("a red flag", 13, "what was seen (9 letters here), how soon", a_red_flag),
    Task("attendance of two", 9, "minutes and effort; one may not train: asked", an_attendance),
)


@pytest.mark.parametrize("task", TASKS, ids=lambda task: task.words)
def test_a_task_takes_no_more_keys_than_the_guide_says(qtbot, unlocked, task):
    hands = Hands(qtbot, unlocked)
    note(hands, *calf_case())
    task.typed(hands)
    assert hands.pressed <= task.most


def table():
    """Return the table of the guide."""
    lines = ["| task | keys, at most | decides |", "|---|---|---|"]
    lines += [f"| {task.words} | {task.most} | {task.decides} |" for task in TASKS]
    return "\n".join(lines)


def test_the_guide_says_how_many_keys_each_task_takes():
    told = GUIDE.read_text(encoding="utf-8").partition(BEGIN)[2].partition(END)[0].strip()
    assert told == table(), f"write this into DEVELOPERS.md:\n{table()}"
