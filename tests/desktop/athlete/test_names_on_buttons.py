"""Every form that is opened for an athlete says for whom it saves."""

import pytest

from teamrehab.desktop.athlete.actions import Act


@pytest.mark.parametrize("act", Act)
def test_the_button_that_saves_names_the_athlete(opened, act):
    opened.show("a1")
    dialog = opened.ask(act)
    assert "Sam Okafor" in dialog.save.text()
    dialog.done(0)
