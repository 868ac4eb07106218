"""The test cells of a row ask what the next stage waits for, what is to be seen first."""

from teamrehab.desktop.evening.place import Part
from teamrehab.domain.measures import FunctionCheck, RunTest
from tests.desktop.test_keys import Hands, calf_case, note


def test_what_must_be_seen_for_the_next_stage_is_asked_first_in_the_row(qtbot, unlocked):
    hands = Hands(qtbot, unlocked)
    note(hands, *calf_case()[:-1])  # still in its first stage
    hands.go(Part.EVENING)
    hands.type("T" + "y\ty\tn")
    row = unlocked.workplace.after_training.evening.rows[0]
    assert dict(row.tests.texts)["look walks_clean"] == "True"
    hands.type("\n" + "KK\n")
    hands.until(lambda: hands.facts(FunctionCheck))
    (seen,) = hands.facts(FunctionCheck)
    said = (seen.walks_clean, seen.stairs_clean, seen.double_leg_raise, seen.no_signs)
    assert said == (True, True, False, None)


def test_a_later_stage_asks_nothing_to_be_seen_and_takes_a_run(qtbot, unlocked):
    hands = Hands(qtbot, unlocked)
    note(hands, *calf_case())
    hands.go(Part.EVENING)
    hands.type("T")
    row = unlocked.workplace.after_training.evening.rows[0]
    assert row.tests.look is None
    qtbot.keyClicks(row.tests.run.percent, "91")
    qtbot.keyClicks(row.tests.run.symptom, "0")
    row.tests.run.percent.setFocus()
    hands.type("\n" + "KK\n")
    hands.until(lambda: hands.facts(RunTest))
    assert [run.percent_of_own for run in hands.facts(RunTest)] == [91]
