"""The athlete page over a real casebook, by real keys and clicks."""

from datetime import datetime

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.entry.live_answer import LiveAnswer
from teamrehab.domain.athletes import Role, StaffMember
from teamrehab.domain.availability import (
    Activity,
    AvailabilityStated,
    Limit,
    Match,
    Training,
)
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Certainty,
    Clearance,
    Diagnosis,
    Nature,
    Outcome,
    ProtocolChosen,
    RedFlag,
    ReturnDecision,
    Scope,
    Side,
    StageMoved,
    Urgency,
)
from teamrehab.domain.measures import HeelRaiseTest, Hops, HopTest, KneeToWallTest, Raises
from tests.builders import case, day, stated
from tests.desktop.athlete.conftest import IDS, TODAY, no_red_flag


def click(qtbot, button):
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def spoken_criteria(view):
    return [row.accessibleName() for row in view.progress.criteria.rows]


def entries(view):
    table = view.entries.model
    return [table.index(n, 2).data() for n in range(table.rowCount())]


def stands(opened, kind):
    return [value for value in opened.noted(kind) if value.case_id == "c1"]


def test_before_anybody_is_chosen_the_page_says_how_to_choose(opened):
    assert opened.page.pages.currentWidget() is not opened.page.view


def test_the_page_shows_who_what_is_missing_and_why(opened):
    view = opened.show("a1")
    assert view.heading.name.text() == "8 Sam Okafor"
    assert view.heading.training.text() == "Training: none"
    assert "Calf strain" in view.case.problem.text()
    assert "day 20" in view.case.course.text()
    assert "20 days lost" in view.case.course.text()
    assert "Stage 2 of 5, Strength, is open." in view.progress.path.as_text()
    told = " ".join(spoken_criteria(view))
    assert "knee bent, through full range on the injured leg: never tested" in told
    assert "met; 22 of 15 repetitions, left, Sat 24 Oct; error of the test 6" in told


def test_a_minor_is_marked_as_one(opened):
    view = opened.show("a3")
    assert "under 18" in view.heading.about.text()


def test_every_criterion_can_be_reached_by_tab_and_read_out(opened):
    view = opened.show("a1")
    for row in view.progress.criteria.rows:
        assert row.focusPolicy() & Qt.FocusPolicy.TabFocus
        assert row.accessibleName()


def test_tonights_test_saved_by_keys_stands_first_among_the_entries(opened, qtbot):
    view = opened.show("a1")
    dialog = opened.ask(Act.TEST)
    part = dialog.form.parts[0]
    qtbot.keyClicks(part.count.left, "26")
    qtbot.keyClicks(part.count.right, "28")
    qtbot.keyClicks(part.symptom, "0")
    qtbot.keyClicks(part.range, "k")
    qtbot.keyClicks(dialog.form.painkiller, "n")
    qtbot.keyClicks(dialog.form.after, "f")
    opened.save()
    assert entries(view)[0] == "26 left, 28 right, no symptom"
    assert [t.left for t in stands(opened, HeelRaiseTest)][-1] == Raises(26)


def test_while_typing_the_criteria_answer_as_they_will_after_saving(opened, qtbot):
    view = opened.show("a1")
    dialog = opened.ask(Act.TEST)
    part = dialog.form.parts[0]
    qtbot.keyClicks(part.count.left, "13")
    qtbot.keyClicks(part.count.right, "26")
    qtbot.keyClicks(part.symptom, "0")
    qtbot.keyClicks(part.range, "k")
    live = dialog.findChild(LiveAnswer)
    assert live.symmetry.text() == "Heel raises: the injured leg is 50 % of the other"
    foreseen = [row.accessibleName() for row in live.criteria.rows]
    assert any("13 of 15 repetitions" in told for told in foreseen)
    assert not any("13 of 15" in told for told in spoken_criteria(view))
    qtbot.keyClicks(dialog.form.painkiller, "n")
    qtbot.keyClicks(dialog.form.after, "f")
    opened.save()
    assert spoken_criteria(view) == foreseen


def test_a_second_test_of_the_same_evening_is_the_one_that_counts(opened, qtbot):
    view = opened.show("a1")
    for count in ("13", "17"):
        dialog = opened.ask(Act.TEST)
        part = dialog.form.parts[0]
        qtbot.keyClicks(part.count.left, count)
        qtbot.keyClicks(part.range, "k")
        told = " ".join(
            row.accessibleName() for row in dialog.findChild(LiveAnswer).criteria.rows
        )
        assert f"{count} of 15 repetitions" in told
        qtbot.keyClicks(dialog.form.painkiller, "n")
        qtbot.keyClicks(dialog.form.after, "f")
        opened.save()
        assert f"{count} of 15 repetitions" in " ".join(spoken_criteria(view))


def test_a_correction_replaces_the_test_and_is_marked(opened, qtbot):
    view = opened.show("a1")
    before = len(entries(view))
    rows = [r[0].value for r in view.entries.model.rows]
    line = next(n for n, v in enumerate(rows) if getattr(v, "test_id", "") == "h2")
    view.entries.table.setCurrentIndex(view.entries.model.index(line, 0))
    click(qtbot, view.entries.correct)
    dialog = opened.dialog()
    left = dialog.form.parts[0].count.left
    assert left.text() == "22"
    left.selectAll()
    qtbot.keyClicks(left, "24")
    opened.save()
    assert len(entries(view)) == before
    assert [t.left.repetitions for t in stands(opened, HeelRaiseTest)] == [14, 24]
    marked = [r for r in view.entries.model.rows if r[0].corrected]
    assert [r[0].value.test_id for r in marked] == ["h2"]


def test_an_entry_made_in_error_goes_only_with_a_reason(opened, qtbot):
    view = opened.show("a1")
    rows = [r[0].value for r in view.entries.model.rows]
    line = next(n for n, v in enumerate(rows) if getattr(v, "test_id", "") == "h1")
    view.entries.table.setCurrentIndex(view.entries.model.index(line, 0))
    click(qtbot, view.entries.withdraw)
    dialog = opened.dialog()
    opened.press(dialog)
    assert dialog.isVisible()
    qtbot.keyClicks(dialog.form.reason, "typed for the wrong athlete")
    opened.save()
    assert [t.test_id for t in stands(opened, HeelRaiseTest)] == ["h2"]


def test_delete_takes_back_an_entry_only_from_the_table_itself(opened, qtbot):
    view = opened.show("a1")
    view.progress.path.setFocus()
    qtbot.keyClick(view.progress.path, Qt.Key.Key_Delete)
    assert opened.page.dialog is None
    view.entries.table.setFocus()
    qtbot.keyClick(view.entries.table, Qt.Key.Key_Delete)
    dialog = opened.dialog()
    assert dialog.form.title == "Entered in error"
    dialog.reject()


def test_a_move_against_the_proposal_needs_a_reason_and_names_the_athlete(opened, qtbot):
    view = opened.show("a1")
    click(qtbot, view.steps.move_on)
    dialog = opened.dialog()
    assert "Sam Okafor" in dialog.save.text()
    opened.press(dialog)
    assert dialog.form.fields["Reason"].complaint
    assert [m.stage for m in stands(opened, StageMoved)] == [2]
    qtbot.keyClicks(dialog.form.why, "hops are clean in the sand")
    opened.save()
    moved = stands(opened, StageMoved)[-1]
    assert (moved.stage, moved.proposed, moved.why) == (3, 2, "hops are clean in the sand")
    assert "Stage 3 of 5" in view.progress.path.as_text()


def test_limits_are_stated_by_activity_and_only_with_limits(opened, qtbot):
    view = opened.show("a1")
    dialog = opened.ask(Act.AVAILABILITY)
    form = dialog.form
    assert form.training.value() is Training.NONE
    assert not form.limits.fields[Activity.SPRINT].isVisible()
    qtbot.keyClicks(form.training, "w")
    assert form.limits.fields[Activity.SPRINT].isVisible()
    pace = form.limits.fields[Activity.PACE]
    qtbot.keyClicks(pace.choice, "at")
    qtbot.keyClicks(pace.number, "70")
    for activity in (Activity.GYM, Activity.MINUTES):
        qtbot.keyClicks(form.limits.fields[activity].choice, "as")
    opened.save()
    stated = stands(opened, AvailabilityStated)[-1]
    assert stated.training is Training.WITH_LIMITS
    opened_by_hand = {Activity.PACE, Activity.GYM, Activity.MINUTES}
    shut = [Limit(each) for each in Activity if each not in opened_by_hand]
    assert stated.limits == (Limit(Activity.PACE, 70), *shut)
    assert "no sprints" in view.heading.limits.text()


def test_what_was_stated_as_usual_stays_so_when_limits_are_stated_again(opened, qtbot):
    opened.show("a1")
    form = opened.ask(Act.AVAILABILITY).form
    qtbot.keyClicks(form.training, "w")
    qtbot.keyClicks(form.limits.fields[Activity.GYM].choice, "as")
    opened.save()
    before = stands(opened, AvailabilityStated)[-1].limits
    form = opened.ask(Act.AVAILABILITY).form
    qtbot.keyClicks(form.match, "a")
    opened.save()
    assert stands(opened, AvailabilityStated)[-1].limits == before
    assert Activity.GYM not in {limit.activity for limit in before}


def test_more_than_the_open_stage_commonly_allows_is_told_and_saved_all_the_same(opened, qtbot):
    opened.show("a1")
    form = opened.ask(Act.AVAILABILITY).form
    assert not form.limits.caution.isVisible()
    qtbot.keyClicks(form.training, "w")
    assert "Nothing is allowed yet" in form.limits.caution.text()
    qtbot.keyClicks(form.limits.fields[Activity.GYM].choice, "as")
    assert not form.limits.caution.isVisible()
    qtbot.keyClicks(form.limits.fields[Activity.JUMP].choice, "as")
    assert "Allowed beyond Strength" in form.limits.caution.text()
    assert "jumps" in form.limits.caution.text()
    assert "running" not in form.limits.caution.text()
    qtbot.keyClicks(form.training, "f")
    assert "running" in form.limits.caution.text()
    qtbot.keyClicks(form.training, "w")
    opened.save()
    allowed = set(Activity) - {
        x.activity for x in stands(opened, AvailabilityStated)[-1].limits
    }
    assert allowed == {Activity.GYM, Activity.JUMP}


def test_words_for_the_coach_that_tell_something_medical_are_not_saved(opened, qtbot):
    opened.show("a1")
    dialog = opened.ask(Act.AVAILABILITY)
    form = dialog.form
    qtbot.keyClicks(form.match, "l")
    qtbot.keyClicks(form.role, "substitute, calf still sore")
    assert "calf" in form.fields["Role in the match"].complaint
    opened.press(dialog)
    assert dialog.isVisible()
    assert [s.match for s in stands(opened, AvailabilityStated)] == [Match.NOT_AVAILABLE]


def test_a_decision_beats_the_estimate_and_is_shown_as_one(opened, qtbot):
    view = opened.show("a1")
    dialog = opened.ask(Act.DECIDE)
    qtbot.keyClick(dialog.form.ruled_out["m1"], Qt.Key.Key_Space)
    opened.save()
    assert stands(opened, ReturnDecision)[-1].ruled_out == ("m1",)
    assert "ruled out, decided" in view.likely.words()


def test_a_decision_keeps_the_matches_that_have_no_box(opened, qtbot):
    opened.show("a1")
    before = ReturnDecision(case_id="c1", athlete_id="a1", on=day(18), ruled_out=("far off",))
    opened.note(before)
    dialog = opened.ask(Act.DECIDE)
    qtbot.keyClick(dialog.form.ruled_out["m1"], Qt.Key.Key_Space)
    opened.save()
    assert stands(opened, ReturnDecision)[-1].ruled_out == ("far off", "m1")


def test_an_open_red_flag_is_said_and_no_stage_is_opened_until_a_doctor_closed_it(
    opened, qtbot
):
    view = opened.show("a1")
    dialog = opened.ask(Act.FLAG)
    qtbot.keyClicks(dialog.form.what, "swelling and warmth at rest")
    qtbot.keyClicks(dialog.form.urgency, "d")
    opened.save()
    assert stands(opened, RedFlag)[-1].urgency is Urgency.SAME_DAY
    assert "A doctor sees the athlete today" in view.case.flag.text()
    click(qtbot, view.steps.move_on)
    dialog = opened.dialog()
    assert dialog.form.stage.value == 1
    dialog.form.stage.show_value(3)
    qtbot.keyClicks(dialog.form.why, "feels fine")
    opened.press(dialog)
    qtbot.waitUntil(lambda: "red flag is open" in dialog.trouble.text())
    assert dialog.form.why.text() == "feels fine"
    dialog.form._touched = False
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    click(qtbot, view.case.close_flag)
    dialog = opened.dialog()
    qtbot.keyClicks(dialog.form.doctor, "Dr Ada Brenner")
    opened.save()
    flag = stands(opened, RedFlag)[-1]
    assert (flag.closed_on, flag.closed_by) == (TODAY, "Dr Ada Brenner")
    assert not view.case.flag.isVisible()


def test_a_clearance_is_signed_with_ones_own_name_and_ends_the_case(opened, qtbot):
    view = opened.show("a1")
    dialog = opened.ask(Act.CLEAR)
    form = dialog.form
    form.scope.choose(Scope.MATCH)
    qtbot.keyClicks(form.reason, "agreed with the doctor")
    qtbot.keyClicks(form.signature, "somebody else")
    opened.press(dialog)
    assert "Ines Duarte" in form.fields["Sign with your name"].complaint
    form.signature.selectAll()
    qtbot.keyClicks(form.signature, "ines duarte")
    opened.save()
    signed = stands(opened, Clearance)[-1]
    assert (signed.scope, signed.signed_by) == (Scope.MATCH, "Ines Duarte")
    assert stands(opened, CaseClosed)[-1].outcome is Outcome.CLEARED
    assert view.healthy.isVisible()


def test_a_case_that_ends_otherwise_asks_how_and_why(opened, qtbot):
    opened.show("a1")
    dialog = opened.ask(Act.CLOSE)
    qtbot.keyClicks(dialog.form.outcome, "l")
    opened.press(dialog)
    assert dialog.isVisible()
    qtbot.keyClicks(dialog.form.reason, "moved abroad")
    opened.save()
    assert stands(opened, CaseClosed)[-1].outcome is Outcome.LEFT_CLUB


def test_a_new_injury_of_a_healthy_athlete_takes_a_few_keys(opened, qtbot):
    view = opened.show("a2")
    buttons = [b.text() for b in view.actions_bar.findChildren(QPushButton) if b.isVisible()]
    assert any("Baseline" in words for words in buttons)
    dialog = opened.ask(Act.INJURY)
    form = dialog.form
    qtbot.keyClicks(form.side, "r")
    qtbot.keyClicks(form.area, "thigh")
    qtbot.keyClicks(form.what, "pulled up in a sprint")
    no_red_flag(qtbot, form)
    qtbot.keyClicks(form.training, "n")
    opened.save()
    (new,) = [c for c in opened.noted(Case) if c.athlete_id == "a2"]
    assert (new.side, new.area, new.on) == (Side.RIGHT, "thigh", TODAY)
    assert new.reassess_on.date() == day(22)
    (said,) = [s for s in opened.noted(AvailabilityStated) if s.case_id == new.case_id]
    assert (said.training, said.match) == (Training.NONE, Match.UNDECIDED)
    assert said.next_update == new.reassess_on
    assert view.steps.diagnose.isVisible()


def test_a_new_injury_can_be_the_recurrence_of_a_closed_case(opened, qtbot):
    opened.show("a1")
    dialog = opened.ask(Act.CLOSE)
    qtbot.keyClicks(dialog.form.outcome, "o")
    qtbot.keyClicks(dialog.form.reason, "left by agreement")
    opened.save()
    qtbot.waitUntil(lambda: bool(opened.page.portrait().earlier))
    form = opened.ask(Act.INJURY).form
    qtbot.keyClicks(form.side, "l")
    qtbot.keyClicks(form.area, "lower")
    no_red_flag(qtbot, form)
    qtbot.keyClicks(form.training, "n")
    qtbot.keyClicks(form.recurrence, "calf")
    opened.save()
    assert [c.recurrence_of for c in opened.noted(Case)] == ["", "c1"]


@pytest.fixture
def assistant(opened):
    """The same page with an assistant at the desk."""
    opened.note(StaffMember(staff_id="s1", name="Ines Duarte", role=Role.ASSISTANT))
    return opened


def test_an_assistant_reads_who_signs_and_is_refused_with_all_typed_kept(assistant, qtbot):
    assistant.show("a1")
    dialog = assistant.ask(Act.CLEAR)
    form = dialog.form
    form.scope.choose(Scope.TEAM_TRAINING)
    assert "doctor, physio" in form.signature.accessibleDescription()
    qtbot.keyClicks(form.reason, "agreed with the doctor")
    qtbot.keyClicks(form.signature, "Ines Duarte")
    assistant.press(dialog)
    qtbot.waitUntil(lambda: "You are signed in as assistant" in dialog.trouble.text())
    assert form.reason.words == "agreed with the doctor"
    assert stands(assistant, Clearance) == []
    form._touched = False
    dialog.reject()


def test_an_illness_is_its_own_case_and_two_cases_can_be_switched(opened, qtbot):
    view = opened.show("a1")
    assert not view.switch.isVisible()
    dialog = opened.ask(Act.ILLNESS)
    qtbot.keyClicks(dialog.form.what, "fever since noon")
    qtbot.keyClicks(dialog.form.flags.chest, "n")
    qtbot.keyClicks(dialog.form.training, "n")
    opened.save()
    assert [c.nature for c in opened.noted(Case)] == [Nature.INJURY, Nature.ILLNESS]
    first, second = view.switch.buttons()
    other = second if first.isChecked() else first
    shown = view.case.problem.text()
    click(qtbot, other)
    assert view.case.problem.text() != shown


def test_the_injury_chosen_proposes_its_protocol_and_muscles(opened, qtbot):
    opened.show("a2")
    dialog = opened.ask(Act.INJURY)
    qtbot.keyClicks(dialog.form.side, "l")
    qtbot.keyClicks(dialog.form.area, "lower")
    no_red_flag(qtbot, dialog.form)
    qtbot.keyClicks(dialog.form.training, "n")
    opened.save()
    dialog = opened.ask(Act.DIAGNOSIS)
    form = dialog.form
    qtbot.keyClicks(form.injury, "calf")
    assert form.protocol.value == "calf_strain"
    qtbot.keyClicks(form.muscle, "sol")
    qtbot.keyClicks(form.certainty, "c")
    opened.save()
    (held,) = [d for d in opened.noted(Diagnosis) if d.athlete_id == "a2"]
    assert (held.injury, held.muscle, held.certainty) == (
        "calf_strain",
        "soleus",
        Certainty.CONFIRMED,
    )
    assert [p.protocol for p in opened.noted(ProtocolChosen) if p.athlete_id == "a2"] == [
        "calf_strain"
    ]


def test_a_diagnosis_opened_again_keeps_its_muscle_and_grade(opened, qtbot):
    opened.show("a1")
    form = opened.ask(Act.DIAGNOSIS).form
    qtbot.keyClicks(form.muscle, "gastro")
    qtbot.keyClicks(form.grade, "2")
    opened.save()
    form = opened.ask(Act.DIAGNOSIS).form
    assert (form.muscle.value, form.grade.value) == ("gastrocnemius", 2)
    opened.page.dialog.reject()


def test_a_baseline_test_belongs_to_no_case_and_is_listed(opened, qtbot):
    view = opened.show("a2")
    dialog = opened.ask(Act.TEST)
    part = dialog.form.parts[0]
    qtbot.keyClicks(part.count.left, "31")
    qtbot.keyClicks(part.range, "k")
    qtbot.keyClicks(dialog.form.painkiller, "n")
    qtbot.keyClicks(dialog.form.after, "f")
    opened.save()
    qtbot.waitUntil(lambda: bool(entries(view)))
    assert entries(view) == ["31 left, symptom not asked"]
    (baseline,) = [t for t in opened.noted(HeelRaiseTest) if t.athlete_id == "a2"]
    assert baseline.case_id == ""


def test_typed_and_unsaved_words_are_known_to_the_page(opened, qtbot):
    opened.show("a1")
    assert not opened.page.has_unsaved
    dialog = opened.ask(Act.SESSION)
    qtbot.keyClicks(dialog.form.minutes, "45")
    assert opened.page.has_unsaved
    dialog.form._touched = False
    dialog.reject()
    assert not opened.page.has_unsaved


def test_the_graphs_have_their_numbers_as_a_table_and_as_a_sentence(opened, qtbot):
    view = opened.show("a1")
    click(qtbot, view.graphs.as_table)
    assert view.graphs.numbers.isVisible()
    rows = view.graphs.model.rows
    assert ("Heel raises", day(19), (22, 28)) in rows
    assert ("Hops", day(19), (11, 24)) in rows
    qtbot.waitUntil(lambda: "raises" in view.graphs.panels)
    said = view.graphs.panels["raises"].as_text()
    assert "left, injured: day 12: 14, day 19: 22." in said


def test_no_graph_is_drawn_while_held_back_and_the_numbers_stand_all_the_same(opened, qtbot):
    graphs = opened.page.view.graphs
    graphs.hold()
    opened.show("a1")
    qtbot.wait(20)
    assert graphs.panels == {}
    assert ("Hops", day(19), (11, 24)) in graphs.model.rows
    graphs.release()
    qtbot.waitUntil(lambda: "raises" in graphs.panels)
    assert graphs.panels["raises"].isVisible()


def test_hops_with_times_typed_get_a_graph_of_reactive_strength(opened, qtbot):
    graphs = opened.show("a1").graphs
    qtbot.waitUntil(lambda: "raises" in graphs.panels)
    before = "reactive" in graphs.panels
    timed = HopTest(
        test_id="p2",
        case_id="c1",
        athlete_id="a1",
        on=TODAY,
        left=Hops(15, 250, 400),
        right=Hops(24, 200, 500),
    )
    opened.note(timed)
    assert (before, graphs.panels["reactive"].isVisible()) == (False, True)
    # height over contact (Sports Med 2022;52:301): 9.81 x 0.4^2 / 8 / 0.25 = 0.78 m/s
    said = graphs.panels["reactive"].as_text()
    assert "left, injured: day 20: 0.78" in said
    assert "right: day 20: 1.53" in said
    assert ("Reactive strength (m/s)", TODAY, (0.78, 1.53)) in graphs.model.rows


@pytest.mark.parametrize("width", [420, 1400])
def test_the_page_fits_narrow_and_wide_windows(opened, width):
    view = opened.show("a1")
    opened.page.resize(width, 700)
    assert view.widget().width() <= max(width, view.widget().minimumSizeHint().width())


def test_knee_to_wall_gets_its_graph_with_the_published_error_when_it_is_measured(
    opened, qtbot
):
    graphs = opened.show("a1").graphs
    qtbot.waitUntil(lambda: "raises" in graphs.panels)
    before = "knee_to_wall" in graphs.panels
    opened.note(KneeToWallTest(test_id="k1", on=TODAY, left_mm=95, right_mm=120, **IDS))
    assert (before, graphs.panels["knee_to_wall"].isVisible()) == (False, True)
    assert "left, injured: day 20: 9.5" in graphs.panels["knee_to_wall"].as_text()
    assert ("Knee to wall (cm)", TODAY, (9.5, 12.0)) in graphs.model.rows
    # MDC within one tester 1.9 cm: Man Ther 2015;20:524, doi 10.1016/j.math.2015.01.004
    assert [line.error for line in graphs.panels["knee_to_wall"]._lines] == [1.9, None]


def test_distances_alone_draw_no_empty_graph_of_raises_or_hops(opened, qtbot):
    graphs = opened.show("a2").graphs
    opened.note(
        case(case_id="c2", athlete_id="a2", area="ankle"),
        KneeToWallTest(test_id="k1", case_id="c2", athlete_id="a2", on=TODAY, left_mm=95),
    )
    qtbot.waitUntil(lambda: "knee_to_wall" in graphs.panels)
    assert set(graphs.panels) == {"knee_to_wall"}


@pytest.mark.parametrize(
    ("hour", "words"), [(12, "next update was due"), (22, "next update Sun")]
)
def test_an_update_whose_hour_has_passed_is_told_as_one_that_was_due(opened, hour, words):
    view = opened.show("a1")
    at = datetime(TODAY.year, TODAY.month, TODAY.day, hour)  # noqa: DTZ001  wall time
    there = stated(case(**IDS), 20, training=Training.NONE, next_update=at)
    opened.note(there)
    assert words in view.heading.limits.text()
