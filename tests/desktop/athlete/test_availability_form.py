"""What the availability form starts from."""

from datetime import datetime, time, timedelta

import pytest

from teamrehab.desktop.athlete.availability_form import AvailabilityForm
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.domain.availability import Match
from tests.builders import athlete, case, day, stated

TODAY = day(20)


@pytest.mark.parametrize(("ahead", "kept"), [(-1, False), (0, True), (3, True)])
def test_days_stated_before_stay_in_the_form_only_while_they_are_to_come(qtbot, ahead, kept):
    until = TODAY + timedelta(days=ahead)
    update = datetime.combine(until, time(12))
    before = stated(case(), 12, match=Match.UNDECIDED, until=until, next_update=update)
    occasion = Occasion(athlete=athlete(), today=TODAY, new_id=str, case_id="c1")
    form = AvailabilityForm(occasion, before)
    qtbot.addWidget(form)
    (now,) = form.values()
    assert (now.until, now.next_update) == ((until, update) if kept else (None, None))
