"""An evening entered on a later day than its own is marked in the list of entries."""

from dataclasses import replace
from datetime import timedelta

from teamrehab.desktop.athlete.entries import Entries
from tests.builders import day, standing
from tests.domain import evenings


def test_a_session_entered_the_morning_after_is_marked_and_a_correction_is_said_instead(qtbot):
    in_time = standing(evenings.session(3))
    evening = standing(evenings.session(2))
    late = replace(evening, noted_at=evening.noted_at + timedelta(hours=12))
    corrected = replace(late, fact_id="corrected", value=evenings.session(1), corrected=True)
    tested = replace(late, fact_id="tested", value=evenings.raises(0))
    widget = Entries()
    qtbot.addWidget(widget)
    widget.show_entries([in_time, late, corrected, tested], {}, None, "Europe/Rome")
    model = widget.model
    last = model.columnCount() - 1
    said = [model.index(row, last).data() or "" for row in range(model.rowCount())]
    assert said == ["", "entered the morning after", "corrected", ""]
    assert model.index(0, 0).data() == f"Thu {day(3).day} Oct"
