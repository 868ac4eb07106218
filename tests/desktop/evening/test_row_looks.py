"""The test cells of a row ask what the next stage waits for, what is to be seen first."""

from dataclasses import replace
from datetime import timedelta

import pytest
from PySide6.QtCore import QPoint

from teamrehab.desktop.evening.place import Part
from teamrehab.desktop.evening.row import EveningRow
from teamrehab.desktop.evening.typed import Cell, Draft, TypedRow
from teamrehab.domain.days import Fixture
from teamrehab.domain.injuries import ProtocolChosen, StageMoved
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    Knee,
    Loaded,
    LoadedRaiseTest,
    Raises,
    RunTest,
)
from tests.builders import clock
from tests.desktop.evening.lines import tonight
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


def hopping_by_the_newer_version(fact):
    match fact:
        case ProtocolChosen():
            return replace(fact, version="2")
        case StageMoved():
            return replace(fact, stage=3, proposed=3)
        case _:
            return fact


def test_raises_with_weight_are_asked_for_in_the_row_before_running_only(qtbot, unlocked):
    hands = Hands(qtbot, unlocked)
    note(hands, *map(hopping_by_the_newer_version, calf_case()))
    hands.go(Part.EVENING)
    hands.type("T")
    row = unlocked.workplace.after_training.evening.rows[0]
    load = row.tests.load
    assert load is not None
    for field, typed in ((load.counts.left, "7"), (load.weights.left, "42.5")):
        qtbot.keyClicks(field, typed)
    qtbot.keyClicks(load.symptom, "0")
    load.knee.choose(Knee.BENT)
    assert dict(row.tests.texts)["weight left"] == "42.5"
    assert dict(row.tests.texts)["weight knee"] == "bent"
    load.counts.left.setFocus()
    hands.type("\n" + "KK\n")
    hands.until(lambda: hands.facts(LoadedRaiseTest))
    (noted,) = hands.facts(LoadedRaiseTest)
    assert (noted.left, noted.right, noted.knee) == (Loaded(7, 42_500), None, Knee.BENT)


def test_both_knee_positions_are_tested_on_one_evening_where_the_next_gate_asks(
    qtbot, unlocked
):
    hands = Hands(qtbot, unlocked)
    note(hands, *map(hopping_by_the_newer_version, calf_case()))
    hands.go(Part.EVENING)
    hands.type("T")
    row = unlocked.workplace.after_training.evening.rows[0]
    straight, bent = row.tests.raises, row.tests.bent
    for part, left in ((straight, "24"), (bent, "21")):
        qtbot.keyClicks(part.count.left, left)
        qtbot.keyClicks(part.symptom, "0")
        part.range.choose(True)
    assert "straight" in row.tests.answer.criteria.rows[0].accessibleName()
    texts = dict(row.tests.texts)
    assert (texts["raises left"], texts["bent left"], texts["bent range"]) == (
        "24",
        "21",
        "True",
    )
    bent.count.left.setFocus()
    hands.type("\n" + "KK\n")
    hands.until(lambda: hands.facts(HeelRaiseTest))
    noted = {test.knee: test.left for test in hands.facts(HeelRaiseTest)}
    assert noted == {Knee.STRAIGHT: Raises(24), Knee.BENT: Raises(21)}


def test_a_bent_knee_that_was_typed_and_kept_has_its_row_whatever_is_asked_by_then(
    qtbot, unlocked
):
    hands = Hands(qtbot, unlocked)
    note(hands, *calf_case()[:-1])
    hands.go(Part.EVENING)
    row = unlocked.workplace.after_training.evening.rows[0]
    texts = (("bent left", "21"), ("bent range", "False"), ("contact right", "190"))
    hands.type("T")
    assert getattr(row.tests, "bent", row) is None
    assert not row.tests.hops.contact.isVisible()
    row.press("Escape")
    row.press("Escape")
    row.retype(Draft(typed=TypedRow(tests=texts, cell=Cell.TESTS), ids={}))
    assert dict(row.tests.texts) == dict(texts) | {"knee": "straight"}
    assert row.tests.bent.count.isVisible()
    assert row.tests.hops.contact.isVisible()
    for _press in range(3):  # leave the cells, then empty the row: asked twice
        row.press("Escape")
    assert not row.entry.is_typed


def test_the_criteria_beside_the_test_cells_have_room_on_a_small_laptop(qtbot, unlocked):
    hands = Hands(qtbot, unlocked)
    note(hands, *calf_case()[:-1])  # asks for long sentences to be looked at
    unlocked.resize(1366, 768)
    hands.go(Part.EVENING)
    hands.type("T")
    row = unlocked.workplace.after_training.evening.rows[0]
    hands.until(lambda: row.tests.answer.width() >= 300)
    assert row.tests.look is not None


def test_the_day_before_a_match_the_test_cells_say_that_nothing_is_tested_to_the_limit(
    qtbot, unlocked
):
    hands = Hands(qtbot, unlocked)
    match = Fixture(
        fixture_id="m1", on=clock().today() + timedelta(days=1), opponent="Saltreach"
    )
    note(hands, *calf_case(), match)
    hands.go(Part.EVENING)
    hands.type("T")
    row = unlocked.workplace.after_training.evening.rows[0]
    assert "No maximal test today" in row.tests.answer.caution.text()
    assert row.tests.answer.caution.isVisible()


def test_who_is_tested_stays_in_sight_where_the_cells_are_higher_than_the_page(qtbot, unlocked):
    hands = Hands(qtbot, unlocked)
    note(hands, *map(hopping_by_the_newer_version, calf_case()))
    unlocked.resize(1366, 600)
    hands.go(Part.EVENING)
    hands.type("T")
    view = unlocked.workplace.after_training.evening
    head, page = view.rows[0].head, view.list.viewport()
    hands.until(lambda: view.rows[0].height() > page.height())
    hands.until(lambda: head.mapTo(page, QPoint(0, 0)).y() >= 0)
    view.rows[0].tests.load.symptom.setFocus()
    hands.type("0")
    last = view.rows[0].tests.load.symptom
    hands.until(lambda: page.rect().contains(last.mapTo(page, last.rect().bottomRight())))
    for _press in range(3):
        view.rows[0].press("Escape")


@pytest.mark.parametrize("widths", [(1290, 1772), (1772, 1290)])
def test_a_plan_stands_beneath_its_row_only_where_its_column_has_no_room(qtbot, widths):
    words = "Straight-knee raise, one leg on the floor 3 x 15; Hop, both legs forward 3 x 60 s"
    row = EveningRow(tonight(plan_words=words), lambda _tonight: None)
    qtbot.addWidget(row)
    row.resize(1000, 60)
    row.show()
    row.set_active(True)
    for width in widths:
        row.resize(width, row.height())
        beneath = [label.text() for label in row.opened.labels if label.isVisible()]
        assert (beneath, row.head.plan.text()) == (
            ([], words) if width == max(widths) else ([f"Plan: {words}"], "")
        )
