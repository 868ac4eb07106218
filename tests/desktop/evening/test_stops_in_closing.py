"""Who is stopped stands first at the end of an evening, also without an entry that evening."""

from datetime import timedelta
from typing import Any

from PySide6.QtCore import Qt

from teamrehab.desktop.evening.place import Part
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.measures import SessionEntry, SessionKind, Symptom
from tests.builders import ONSET, athlete, case, stated
from tests.desktop.test_keys import Hands, calf_case, note

YESTERDAY = ONSET - timedelta(days=1)


def opened(number):
    """Return a case of an athlete, begun a week ago, of whom no training is stated."""
    ids: dict[str, Any] = {
        "case_id": f"c{number}",
        "athlete_id": f"a{number}",
        "on": ONSET - timedelta(days=7),
    }
    begun = case(**ids)
    return begun, stated(begun, -7)


def flag(number, urgency):
    return RedFlag(
        flag_id=f"f{number}",
        case_id=f"c{number}",
        athlete_id=f"a{number}",
        on=YESTERDAY,
        urgency=urgency,
        what="seen yesterday",
    )


def test_stops_of_an_earlier_day_come_first_emergencies_above_all(qtbot, unlocked):
    hands = Hands(qtbot, unlocked)
    sharp = SessionEntry(
        session_id="s3",
        case_id="c3",
        athlete_id="a3",
        on=YESTERDAY,
        kind=SessionKind.REHAB,
        symptom=Symptom(8),
    )
    third = athlete(athlete_id="a3", surname="Brandt", first_name="Kim", number=3)
    fourth = athlete(athlete_id="a4", surname="Abara", first_name="Ada", number=4)
    note(hands, third, fourth, *opened(2), *opened(3), *opened(4), sharp)
    note(hands, flag(4, Urgency.SAME_DAY), flag(2, Urgency.EMERGENCY), *calf_case())
    hands.go(Part.EVENING)
    hands.hold(Qt.Key.Key_Return)
    view = hands.window.workplace.after_training.closing
    hands.until(lambda: len([one for one in view.list.lines if one.proposed.stopped]) == 3)
    names = [one.proposed.name for one in view.list.lines if one.proposed.stopped]
    assert [name.split()[-1] for name in names] == ["Silva", "Abara", "Brandt"]
    assert hands.facts(SessionEntry) == [sharp]
