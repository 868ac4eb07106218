"""Red flags, symptom rules, plain exercises and the return are read, or refused by name."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.guidance import (
    Exercise,
    FullSessions,
    Informs,
    KindOfWork,
    ReturnItem,
    SymptomRule,
    WarningSign,
    Watch,
)
from teamrehab.domain.injuries import Urgency
from teamrehab.domain.protocol import Passed
from teamrehab.protocols import ProtocolError, read_protocol
from teamrehab.reports.protocol_text import protocol_page, protocol_text
from tests.protocols.test_ladders import WHOLE

GUIDANCE = """
[[red_flag]]
key = "cold"
sentence = "The finger is cold or white"
urgency = "emergency now"
source = "common practice"

[[red_flag]]
key = "crooked"
sentence = "The finger is crooked"
urgency = "doctor the same day"
source = "common practice"

[[symptom_rule]]
work = "slow gym work"
most = 2
settles = true
source = "common practice"

[[symptom_rule]]
work = "slow gym work"
stage = 2
most = 3
source = "common practice"

[[exercise]]
key = "putty"
name = "Putty, squeezed"
stage = 1
until = 2
sets = 2
dose = "10-15 slow repetitions"
work = "slow gym work"
source = "common practice"

[[return]]
sentence = "Catches 50 balls"
source = "common practice"

[[return]]
sentence = "Kicks as before"
muscle = "vasti"
source = "common practice"

[[full_sessions]]
from_day = 0
sessions = 1
source = "common practice"

[[full_sessions]]
from_day = 8
sessions = 3
better = 6
limited_minutes = true
source = "common practice"

[watch]
days = 60
source = "common practice"

[[informs]]
test = "hop_test"
phases = [1, 5]
source = "common practice"
"""
GATED = WHOLE.replace(
    'level = [{ name = "both hands", sets = 3, dose = "20 s" }]',
    'work = "slow gym work"\nlevel = [\n'
    '  { name = "both hands", sets = 3, dose = "20 s", after = { grip = 2 } },\n'
    '  { name = "one hand", sets = 3, dose = "2 runs of 10-20 s" },\n]',
)
FULL = GATED + GUIDANCE


def test_every_part_of_the_guidance_is_read():
    guidance = read_protocol(FULL).guidance
    told: Any = {"source": "common practice"}
    cold, crooked = guidance.signs
    sentence = "The finger is cold or white"
    assert cold == WarningSign(key="cold", sentence=sentence, urgency=Urgency.EMERGENCY, **told)
    assert crooked.urgency is Urgency.SAME_DAY
    slow = KindOfWork.SLOW
    assert guidance.symptom_rules == (
        SymptomRule(work=slow, most=2, settles=True, **told),
        SymptomRule(work=slow, most=3, stage=2, **told),
    )
    assert guidance.exercises == (
        Exercise(
            key="putty",
            name="Putty, squeezed",
            sets=2,
            dose="10-15 slow repetitions",
            stage=1,
            until=2,
            work=slow,
            **told,
        ),
    )
    assert guidance.checklist == (
        ReturnItem(sentence="Catches 50 balls", **told),
        ReturnItem(sentence="Kicks as before", muscle="vasti", **told),
    )
    assert guidance.full_sessions == (
        FullSessions(from_day=0, sessions=1, **told),
        FullSessions(from_day=8, sessions=3, better=6, limited_minutes=True, **told),
    )
    assert guidance.watch == Watch(days=60, **told)
    assert guidance.informs == (Informs(test="hop_test", phases=(1, 5), **told),)


def test_a_level_may_wait_for_a_level_of_another_ladder():
    hang = read_protocol(FULL).ladders[1]
    assert hang.levels[0].after == (Passed(ladder="grip", level=2),)
    assert hang.work is KindOfWork.SLOW


FAULTS = [
    ('"emergency now"', '"emergncy now"', "red_flag 1, urgency", "Did you mean emergency now?"),
    ('"emergency now"', '"soon"', "red_flag 1, urgency", "one of: emergency now, doctor"),
    ('key = "crooked"', 'key = "cold"', "red_flag, key", "each name once"),
    ('sentence = "The finger is crooked"', "", "red_flag 2, sentence", "a text"),
    ("[watch]", "[wach]", "wach", "Did you mean watch?"),
    ("[watch]", "[[watch]]", "watch", "one table, headed [watch]"),
    ("days = 60", "days = 0", "watch, days", "from 1 to 1000"),
    ("days = 60", 'days = "60 days"', "watch, days", "from 1 to 1000"),
    ("most = 2", "most = 11", "symptom_rule 1, most", "from 0 to 10"),
    ("most = 2", "most = true", "symptom_rule 1, most", "from 0 to 10"),
    ("settles = true", 'settles = "yes"', "symptom_rule 1, settles", "true or false"),
    ("settles = true", "setles = true", "symptom_rule 1, setles", "Did you mean settles?"),
    ('"slow gym work"', '"slow work"', "symptom_rule 1, work", "Did you mean slow gym work?"),
    ("stage = 2\nmost", "stage = 3\nmost", "symptom_rule 2, stage", "from 1 to 2"),
    ("stage = 2\nmost", "stage = 1\nmost", "symptom_rule", "each name once"),
    ('key = "putty"', 'key = "grip"', "ladder or exercise, key", "each name once"),
    ('sets = 2\ndose = "10', 'sets = 0\ndose = "10', "exercise 1, sets", "from 1 to 20"),
    ("10-15 slow repetitions", "0 repetitions", "exercise 1, dose", "numbers over 0"),
    ("10-15 slow repetitions", "15-10 repetitions", "exercise 1, dose", "the smaller one"),
    ("10-15 slow repetitions", "10 pounds", "exercise 1, dose", "one of: repetitions"),
    ("10-15 slow repetitions", "10 repetition", "exercise 1, dose", "mean repetitions?"),
    ("10-15 slow repetitions", "20 sec", "exercise 1, dose", "Did you mean s?"),
    ("10-15 slow repetitions", "until tired", "exercise 1, dose", "how much a set is"),
    ('muscle = "vasti"\nsource', 'muscle = "vast"\nsource', "return 2, muscle", "mean vasti?"),
    ("from_day = 0", "from_day = 1", "full_sessions 1, from_day", "0 in the first row"),
    ("from_day = 8", "from_day = 0", "full_sessions 2, from_day", "more than 0"),
    ("better = 6", "better = 2", "full_sessions 2, better", "from 3 to 50"),
    ("sessions = 1\n", "sessions = 0\n", "full_sessions 1, sessions", "from 1 to 50"),
    ('"hop_test"', '"hop_tst"', "informs 1, test", "Did you mean hop_test?"),
    ('"hop_test"', '"blood_test"', "informs 1, test", "one of: heel_raise_test"),
    ("phases = [1, 5]", "phases = [1, 4]", "informs 1, phases", "phases of the stages: 1, 5"),
    ("phases = [1, 5]", "phases = 1", "informs 1, phases", "a list of whole numbers"),
    ("phases = [1, 5]", "phases = []", "informs 1, phases", "a list of whole numbers"),
]


@pytest.mark.parametrize(("before", "after", "key", "said"), FAULTS)
def test_a_fault_is_named_by_file_key_and_what_is_allowed(before, after, key, said):
    assert before in GUIDANCE
    text = GATED + GUIDANCE.replace(before, after, 1)
    with pytest.raises(ProtocolError) as caught:
        read_protocol(text, "finger.toml")
    fault = caught.value
    assert (fault.file, fault.key) == ("finger.toml", key)
    assert said in str(fault)
    assert fault.remedy.endswith((".", "?"))


GATES = [
    ("{ grip = 2 }", "{ grip = 3 }", "ladder 2, level 1, after.grip", "1 to 2"),
    ("{ grip = 2 }", "{ grip = 0 }", "ladder 2, level 1, after.grip", "1 or more"),
    ("{ grip = 2 }", "{ grpi = 2 }", "ladder 2, level 1, after.grpi", "Did you mean grip?"),
    ("{ grip = 2 }", "{ hang = 2 }", "ladder, after", "hang 1 > hang 2 > hang 1"),
    ("{ grip = 2 }", "{ hang = 1 }", "ladder, after", "do not wait for each other"),
    ("{ grip = 2 }", "2", "ladder 2, level 1, after", "a table"),
    ('dose = "20 s"', 'dose = "0 s"', "ladder 2, level 1, dose", "numbers over 0"),
    ('dose = "20 s"', 'dose = "20 seconds"', "ladder 2, level 1, dose", "Did you mean s?"),
    ("symptom = 1", "symptom = 4", "ladder 2, symptom", "3 at most, as the symptom rule"),
    ("until = 2", "until = 1", "ladder 1, level 2, stage", "1 at most, where the ladder ends"),
]


@pytest.mark.parametrize(("before", "after", "key", "said"), GATES)
def test_a_gate_that_cannot_open_is_refused(before, after, key, said):
    start = FULL.index("[[ladder]]")
    assert before in FULL[start:]
    with pytest.raises(ProtocolError) as caught:
        read_protocol(FULL[:start] + FULL[start:].replace(before, after, 1))
    assert caught.value.key == key
    assert said in str(caught.value)


def test_two_ladders_that_wait_for_each_other_are_a_circle_and_named_as_one():
    gate = 'dose = "12 repetitions"\nafter = { hang = 2 }'
    with pytest.raises(ProtocolError, match=r"grip 1 > .*hang 1 > .*grip") as caught:
        read_protocol(FULL.replace('dose = "12 repetitions"', gate))
    assert caught.value.key == "ladder, after"


@given(cut=st.integers(0, len(FULL)), gone=st.integers(0, 60), junk=st.text(max_size=12))
def test_damage_is_refused_in_a_sentence_or_what_is_left_can_be_shown(cut, gone, junk):
    try:
        protocol = read_protocol(FULL[:cut] + junk + FULL[cut + gone :])
    except ProtocolError as fault:
        told = str(fault)
    else:
        told = protocol_page(protocol_text(protocol, {}))[:999]
    assert 0 < len(told) < 1000
