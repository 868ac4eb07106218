"""Criteria that name a ladder, stages that warn, cautions of the young: read or refused."""

import pytest

from teamrehab.protocols import ProtocolError, read_protocol
from tests.protocols.test_ladders import WHOLE

PASSED = """
[[sign_off]]
key = "grip_passed"
check = "level_passed"
sentence = "Grip level 2 passed"
source = "common practice"
parameters = { ladder = "grip", level = 2 }
"""


def test_a_criterion_may_wait_for_a_level_of_a_ladder():
    found = read_protocol(WHOLE + PASSED).sign_off[-1]
    assert found.parameters == {"ladder": "grip", "level": 2}


@pytest.mark.parametrize(
    ("instead", "said"),
    [
        ('ladder = "gripp"', "Did you mean .*grip"),
        ("ladder = 2", "the key of a ladder"),
        ('ladder = ""', "the key of a ladder"),
    ],
)
def test_a_criterion_that_names_no_ladder_of_the_file_is_refused(instead, said):
    with pytest.raises(ProtocolError, match=said):
        read_protocol(WHOLE + PASSED.replace('ladder = "grip"', instead))


def test_a_criterion_that_waits_for_a_level_above_the_last_is_refused():
    with pytest.raises(ProtocolError, match="a level of that ladder, 1 to 2"):
        read_protocol(WHOLE + PASSED.replace("level = 2", "level = 3"))


def test_a_stage_may_warn_of_coming_early_and_a_file_caution_the_young():
    text = WHOLE.replace("phase = 1", "phase = 1\nwarn_before_day = 4", 1)
    text = text.replace("version =", 'cautions_under_18 = ["Bones grow."]\nversion =', 1)
    protocol = read_protocol(text)
    assert protocol.stages[0].warn_before_day == 4
    assert protocol.cautions_under_18 == ("Bones grow.",)
    with pytest.raises(ProtocolError, match="warn_before_day"):
        read_protocol(text.replace("warn_before_day = 4", "warn_before_day = 0"))
