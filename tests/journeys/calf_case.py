"""One calf strain as a physio lives it: what is typed and what is seen, evening by evening.

The criteria it is moved up by are those of the calf protocol (Sports Med Open 2022;8:10,
doi 10.1186/s40798-021-00364-0, and common practice).
"""

from datetime import date
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.athlete.actions import Act
from teamrehab.domain.availability import Activity, Limit, Match, Training
from teamrehab.domain.decision import Proposal
from teamrehab.domain.estimates import NoEstimate
from teamrehab.domain.injuries import Certainty, StageMoved
from teamrehab.domain.measures import HeelRaiseTest, Raises
from tests.builders import day
from tests.journeys.agreed_words import in_day, in_days, in_tenths
from tests.journeys.physio import Physio

MARKERS = ("quagmire", "zeppelin", "obsidian", "jamboree", "kerfuffle", "marzipan")
"""Words that are typed into clinical fields and nowhere else."""


def notes_the_injury_in_a_hurry(physio: Physio) -> None:
    physio.find("okaf")
    dialog = physio.open_form(Qt.Key.Key_I)
    form = dialog.form
    assert "Okafor" in dialog.save.text()
    physio.write(form.side, "l")
    physio.write(form.area, "lower")
    physio.write(form.what, f"felt a kick from behind, {MARKERS[0]}")
    physio.write(form.flags.chest, "n")
    physio.write(form.flags.pop, "n")
    physio.write(form.training, "n")
    physio.save()
    assert physio.row.training is Training.NONE
    sees_no_range_yet(physio)


def sees_no_range_yet(physio: Physio) -> None:
    assert physio.row.likely is None
    assert physio.row.no_estimate is NoEstimate.TOO_YOUNG
    assert physio.view.likely.words().strip() == "being assessed, next update Wed 12:00"


def examines_two_days_later(physio: Physio) -> None:
    physio.night(2)
    sees_no_range_yet(physio)
    form = physio.open_form(Qt.Key.Key_D).form
    physio.write(form.injury, "calf")
    physio.write(form.muscle, "sol")
    physio.write(form.certainty, "c")
    physio.write(form.words, f"tender deep and medial, {MARKERS[1]}")
    assert form.protocol.currentText() == "Calf strain, version 2"
    physio.save()
    checks_function(physio, walks="n", symptom="3p")
    diagnosis = physio.case.diagnosis
    assert (diagnosis.injury, diagnosis.muscle) == ("calf_strain", "soleus")
    assert diagnosis.certainty is Certainty.CONFIRMED
    assert physio.row.decision is not None
    assert physio.row.decision.proposal is Proposal.STAY
    sees_no_range_yet(physio)


def checks_function(physio: Physio, *, walks: str, symptom: str) -> None:
    """Type a function check; its fields stand behind "more fields"."""
    form = physio.open_form(Qt.Key.Key_T).form
    physio.click(form.details)
    check = form.parts[3]
    for question in ("walks_clean", "stairs_clean", "swelling_settled", "double_leg_raise"):
        physio.write(check.answers[question], walks)
    physio.write(check.symptom, symptom)
    physio.write(form.surface, f"bench, {MARKERS[2]}")
    saves_as_fresh_without_painkiller(physio, form)


def saves_as_fresh_without_painkiller(physio: Physio, form: Any) -> None:
    physio.write(form.painkiller, "n")
    physio.write(form.after, "f")
    physio.save()


def sees_a_range_and_opens_strength(physio: Physio) -> None:
    physio.night(5)
    sees_a_range(physio)
    checks_function(physio, walks="y", symptom="1p")
    opens_the_next_stage(physio, 2, Proposal.MOVE_UP)


def sees_a_range(physio: Physio) -> None:
    likely, said = physio.row.likely, physio.view.likely
    assert likely is not None
    assert likely.earliest is not None
    assert likely.median is not None
    assert likely.latest is not None
    assert physio.board.squad.day < likely.earliest < likely.median < likely.latest
    assert said.range.text() == in_days(likely.earliest, likely.latest)
    assert said.median.text() == f"as likely as not by {in_day(likely.median)}"
    chances = [chance.chance for chance in likely.chances]
    assert len(chances) == 3
    assert chances == sorted(chances)
    assert said.chances()[1::2] == [in_tenths(chance) for chance in chances]


def opens_the_next_stage(physio: Physio, stage: int, proposal: Proposal, why: str = "") -> None:
    """Open a stage and see the return come nearer; ``why`` is asked for before it is typed."""
    before, decision = median(physio), physio.row.decision
    assert decision is not None
    assert decision.proposal is proposal
    physio.click(physio.view.steps.move_on)
    if why:
        physio.ctrl_enter()
        form = physio.dialog().form
        assert "against the proposal" in form.fields["Reason"].complaint
        physio.write(form.why, why)
    physio.save()
    assert f"Stage {stage} of 5" in physio.view.progress.path.as_text()
    sees_a_range(physio)
    assert median(physio) < before


def median(physio: Physio) -> date:
    """Return the day by which the athlete is as likely back as not."""
    likely = physio.row.likely
    assert likely is not None
    assert likely.median is not None
    return likely.median


def notes_an_illness_of_another(physio: Physio) -> None:
    physio.find("haddad")
    physio.click(physio.view.actions_bar.buttons[Act.ILLNESS])
    form = physio.dialog().form
    physio.write(form.what, f"feverish since noon, {MARKERS[3]}")
    physio.write(form.flags.chest, "n")
    physio.write(form.training, "n")
    physio.save()
    assert physio.row.no_estimate is NoEstimate.ILLNESS
    physio.find("okaf")


def types_an_evening_with_slips(physio: Physio) -> None:
    physio.night(12)
    form = physio.open_form(Qt.Key.Key_T).form
    raises = form.parts[0]
    physio.write(raises.count.left, "17")
    physio.write(raises.count.right, "201")
    is_told_of_201_raises_and_keeps_what_was_typed(physio, form)
    is_told_of_a_test_before_the_injury(physio, form)
    is_asked_before_typed_words_are_lost(physio, form)
    physio.press(raises.count.right, Qt.Key.Key_Backspace, 3)
    physio.write(raises.count.right, "28")
    assert form.fields["Heel raises"].complaint == ""
    physio.write(raises.symptom, "2t")
    physio.write(raises.range, "k")
    saves_as_fresh_without_painkiller(physio, form)
    assert physio.entries()[0] == "17 left, 28 right, tightness 2"
    (noted,) = physio.case.of(HeelRaiseTest)
    assert (noted.on, noted.right) == (day(12), Raises(28))


def is_told_of_201_raises_and_keeps_what_was_typed(physio: Physio, form: Any) -> None:
    complaint = form.fields["Heel raises"].complaint
    assert "201" in complaint
    assert "0 to 200" in complaint
    physio.ctrl_enter()
    assert physio.dialog().isVisible()
    assert form.parts[0].count.right.text() == "201"
    assert not physio.case.of(HeelRaiseTest)


def is_told_of_a_test_before_the_injury(physio: Physio, form: Any) -> None:
    physio.press(form.day, Qt.Key.Key_Down, 13)
    assert form.day.day == day(-1)
    assert day(0).isoformat() in form.fields["Day"].complaint
    assert form.parts[0].count.right.text() == "201"
    physio.press(form.day, Qt.Key.Key_Up, 13)
    assert form.fields["Day"].complaint == ""


def is_asked_before_typed_words_are_lost(physio: Physio, form: Any) -> None:
    dialog = physio.dialog()
    physio.press(form.parts[0].count.left, Qt.Key.Key_Escape)
    question = QApplication.activeModalWidget()
    assert question is not None
    assert question is not dialog
    physio.press(question, Qt.Key.Key_Escape)
    physio.until(lambda: QApplication.activeModalWidget() is dialog)
    assert form.parts[0].count.left.text() == "17"


def opens_hopping_against_the_proposal(physio: Physio) -> None:
    notes_a_session(physio)
    why = f"bent knee seen on the field, {MARKERS[4]}"
    opens_the_next_stage(physio, 3, Proposal.STAY, why)
    moved = physio.case.last(StageMoved)
    assert (moved.stage, moved.proposed, moved.why) == (3, 2, why)


def notes_a_session(physio: Physio) -> None:
    form = physio.open_form(Qt.Key.Key_E).form
    physio.write(form.kind, "rehab")
    physio.write(form.minutes, "40")
    physio.write(form.effort, "5")
    physio.write(form.symptom, "0")
    physio.write(form.limp, "n")
    physio.write(form.painkiller, "n")
    physio.save()
    done = "rehab session, 40 min, effort 5, no symptom, load 200 (effort x min)"
    assert done in physio.entries()


def opens_running_before_all_was_tested(physio: Physio) -> None:
    physio.night(17)
    form = physio.open_form(Qt.Key.Key_T).form
    raises, hops, _run, check, *_rare = form.parts
    for pair, left, right in ((raises.count, "26", "29"), (hops.count, "21", "24")):
        physio.write(pair.left, left)
        physio.write(pair.right, right)
    physio.write(raises.symptom, "0")
    physio.write(raises.range, "k")
    physio.write(hops.symptom, "1t")
    physio.click(form.details)
    physio.write(check.answers["no_signs"], "y")
    physio.write(check.symptom, "0")
    physio.write(form.shoe, f"trainers, {MARKERS[5]}")
    saves_as_fresh_without_painkiller(physio, form)
    decision = physio.row.decision
    assert decision is not None
    assert {result.criterion.key for result in decision.missing} == {
        "bent_within_10",
        "loaded_bent",
        "loaded_straight",
        "hops_20",  # no session passed what comes before hops on one leg
        "brisk_walk",
        "mornings_to_run",
    }
    opens_the_next_stage(physio, 4, Proposal.STAY, "tested by the doctor, not written down")


def runs_and_is_given_limits(physio: Physio) -> None:
    physio.night(20)
    form = physio.open_form(Qt.Key.Key_T).form
    physio.write(form.parts[2].percent, "85")
    physio.write(form.parts[2].symptom, "0")
    saves_as_fresh_without_painkiller(physio, form)
    assert physio.entries()[0] == "85 % of own speed, no symptom"
    physio.night(21)
    states_limits(physio)
    row = physio.row
    assert (row.training, row.match) == (Training.WITH_LIMITS, Match.UNDECIDED)
    assert row.availability.limits == (Limit(Activity.PACE, 80), Limit(Activity.CONTACT))


def states_limits(physio: Physio) -> None:
    form = physio.open_form(Qt.Key.Key_B).form
    physio.write(form.training, "w")
    pace = form.limits.fields[Activity.PACE]
    physio.write(pace.choice, "at")
    physio.write(pace.number, "80")
    for activity in set(Activity) - {Activity.PACE, Activity.CONTACT}:
        physio.write(form.limits.fields[activity].choice, "as")
    physio.write(form.match, "d")
    sets_a_coming_day(physio, form.until, day(25))
    sets_a_coming_day(physio, form.update_at, day(24))
    physio.save()


def sets_a_coming_day(physio: Physio, maybe: Any, wanted: date) -> None:
    """Tick a box if it is not, and step its day up to the one wanted."""
    if not maybe.ticked:
        physio.press(maybe.box, Qt.Key.Key_Space)
    shown = maybe.field.date()
    steps = (wanted - date(shown.year(), shown.month(), shown.day())).days
    physio.press(maybe.field, Qt.Key.Key_Up, steps)
