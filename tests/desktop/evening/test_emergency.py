"""An emergency answered in a row: the page stays with the athlete and says what to do."""

import pytest

from teamrehab.domain.injuries import RedFlag, Urgency


@pytest.mark.parametrize(
    ("answers", "urgency", "stays"),
    [("ynyy", Urgency.EMERGENCY, True), ("yyyn", Urgency.SAME_DAY, False)],
)
def test_after_an_emergency_nobody_goes_on_to_the_next_row(evening, answers, urgency, stays):
    tonight = evening()
    told: list[str] = []
    tonight.view.told.connect(told.append)
    tonight.type(f"y54\n{answers}\n")
    tonight.settle()
    (flag,) = [getattr(fact, "value", fact) for fact in tonight.facts(RedFlag)]
    assert flag.urgency is urgency
    assert (tonight.view.list.active is tonight.row("Abara")) is stays
    assert any("call emergency medical care" in words for words in told) is stays
