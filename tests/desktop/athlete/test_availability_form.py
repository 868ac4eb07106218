"""What the availability form starts from."""

from datetime import datetime, time, timedelta

import pytest
from PySide6.QtCore import Qt

from teamrehab.desktop.athlete.availability_form import AvailabilityForm
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import TypedError
from teamrehab.domain.availability import Match
from tests.builders import athlete, case, day, stated

TODAY = day(20)
MORNING = datetime.combine(TODAY, time(9))


def opened(qtbot, before, now=MORNING):
    occasion = Occasion(athlete=athlete(), today=TODAY, new_id=str, case_id="c1")
    form = AvailabilityForm(occasion, now, before)
    qtbot.addWidget(form)
    form.show()
    return form


@pytest.mark.parametrize(("ahead", "kept"), [(-1, False), (0, True), (3, True)])
def test_days_stated_before_stay_in_the_form_only_while_they_are_to_come(qtbot, ahead, kept):
    until = TODAY + timedelta(days=ahead)
    update = datetime.combine(until, time(12))
    before = stated(case(), 12, match=Match.UNDECIDED, until=until, next_update=update)
    (now,) = opened(qtbot, before).values()
    assert (now.until, now.next_update) == ((until, update) if kept else (None, None))


def test_an_update_that_was_due_earlier_today_is_left_open_and_not_promised_again(qtbot):
    noon = datetime.combine(TODAY, time(12))
    before = stated(case(), 12, match=Match.UNDECIDED, next_update=noon)
    form = opened(qtbot, before, datetime.combine(TODAY, time(12, 1)))
    assert not form.update_at.ticked
    assert form.update_at.accessibleDescription() == "was due Sun 25 Oct, 12:00"
    qtbot.keyClick(form.update_at.box, Qt.Key.Key_Space)
    with pytest.raises(TypedError, match="this moment has passed"):
        form.values()
    qtbot.keyClick(form.update_at.field, Qt.Key.Key_Up)
    assert form.values()[0].next_update == noon + timedelta(days=1)
