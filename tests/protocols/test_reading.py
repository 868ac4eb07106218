"""A protocol file is read whole, or refused by file, key, value, what is allowed and remedy."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.protocols import ProtocolError, check_file, read_protocol

SMALL = """
format = 1
key = "finger"
name = "Finger"
version = "3"
injuries = ["finger_sprain"]
reviewed_by = "A doctor"
reviewed_on = 2026-10-05
cautions = ["Mind the nail."]
may_sign = ["doctor"]

[[stage]]
name = "Rest"
phase = 1

[[stage]]
name = "Play"
phase = 5
caution = "Tape it."

[[stage.entry]]
key = "calm"
check = "symptom_at_most"
sentence = "Symptom 0-2 on two days"
source = "common practice"
range = "0-2"
parameters = { score = 2, days = 2 }

[[sign_off]]
key = "sessions"
check = "sessions_at_least"
sentence = "Two clean full sessions"
source = "common practice"
parameters = { sessions = 2, kind = "full team session" }
"""


def refusal(before: str, after: str) -> ProtocolError:
    """Return the first fault of the small protocol with one thing changed."""
    assert before in SMALL
    with pytest.raises(ProtocolError) as caught:
        read_protocol(SMALL.replace(before, after, 1), "finger.toml")
    return caught.value


def test_a_protocol_of_an_invented_injury_is_read():
    protocol = read_protocol(SMALL)
    assert (protocol.key, protocol.version, protocol.phases) == ("finger", "3", (1, 5))
    assert (protocol.reviewed_by, protocol.reviewed_on) == ("A doctor", date(2026, 10, 5))
    assert (protocol.starter, protocol.may_sign) == (False, ("doctor",))
    (calm,) = protocol.gate(1)
    assert (calm.check, calm.range, dict(calm.parameters)) == (
        "symptom_at_most",
        "0-2",
        {"score": 2, "days": 2},
    )
    assert [criterion.key for criterion in protocol.gate(2)] == ["sessions"]


FAULTS = [
    ("format = 1", "format = 2", "format", "2", "format 1 or older"),
    ("format = 1\n", "", "format", "nothing", "whole number"),
    ('version = "3"', "version = 3", "version", "3", "a text"),
    ('version = "3"', 'version = " "', "version", " ", "a text"),
    ('name = "Finger"', 'nmae = "Finger"', "name", "nothing", "a text"),
    ("reviewed_on = 2026-10-05", 'reviewed_on = "x"', "reviewed_on", "x", "a date"),
    ('["finger_sprain"]', "[]", "injuries", "[]", "a list of texts"),
    ('["Mind the nail."]', "[1]", "cautions", "[1]", "a list of texts"),
    ('"Mind the nail."', '"\\u202e"', "cautions", "�", "no control characters"),
    ("phase = 5", "phase = 6", "stage 2, phase", "6", "1 to 5"),
    ("phase = 5", "phase = true", "stage 2, phase", "True", "1 to 5"),
    ("phase = 1", "phase = 5\ncaution = 3", "stage 1, caution", "3", "a text"),
    (
        '"symptom_at_most"',
        '"symptom_atmost"',
        "stage 2, entry 1, check",
        "symptom_atmost",
        "Did you mean symptom_at_most?",
    ),
    ("score = 2", "score = 11", "stage 2, entry 1, parameters.score", "11", "from 0 to 10"),
    ("score = 2, ", "", "stage 2, entry 1, parameters.score", "nothing", "from 0 to 10"),
    ("score = 2", 'score = "2"', "stage 2, entry 1, parameters.score", "2", "from 0 to 10"),
    ("days = 2", "dys = 2", "stage 2, entry 1, parameters.dys", "dys", "Did you mean days?"),
    ("sessions = 2", "sessions = 0", "sign_off 1, parameters.sessions", "0", "from 1 to 50"),
    (
        '"full team session"',
        '"a walk"',
        "sign_off 1, parameters.kind",
        "a walk",
        "rehab session",
    ),
    (
        'range = "0-2"',
        'rnage = "0-2"',
        "stage 2, entry 1, rnage",
        "rnage",
        "Did you mean range?",
    ),
    (
        'source = "common practice"\nrange',
        "range",
        "stage 2, entry 1, source",
        "nothing",
        "a text",
    ),
    ('key = "sessions"', 'key = "calm"', "key", "calm", "each name once"),
    ('name = "Play"', 'name = "Rest"', "stage, name", "Rest", "each name once"),
    (
        "parameters = { score = 2, days = 2 }",
        "parameters = 2",
        "stage 2, entry 1, parameters",
        "2",
        "a table",
    ),
]


@pytest.mark.parametrize(("before", "after", "key", "value", "said"), FAULTS)
def test_a_fault_is_named_by_file_key_value_and_what_is_allowed(
    before, after, key, value, said
):
    fault = refusal(before, after)
    assert (fault.file, fault.key, fault.value) == ("finger.toml", key, value)
    assert said in str(fault)
    assert "finger.toml" in str(fault)
    assert fault.remedy.endswith((".", "?"))


def test_a_protocol_without_stages_is_refused():
    stageless = SMALL[: SMALL.index("[[stage]]")]
    with pytest.raises(ProtocolError, match="at least one"):
        read_protocol(stageless)


def test_a_stage_that_cannot_be_left_is_refused():
    lone = SMALL.replace(
        '[[stage]]\nname = "Play"',
        '[[stage]]\nname = "Wait"\nphase = 2\n\n[[stage]]\nname = "Play"',
    )
    with pytest.raises(ProtocolError, match="at least one criterion to leave") as caught:
        read_protocol(lone)
    assert caught.value.value == "Rest"


def test_phases_never_go_back():
    backwards = SMALL.replace("phase = 1", "phase = 3").replace("phase = 5", "phase = 2")
    with pytest.raises(ProtocolError, match="3 or more, as in the stage before") as caught:
        read_protocol(backwards)
    assert (caught.value.key, caught.value.value) == ("Play, phase", "2")


def test_text_that_is_no_toml_says_where():
    with pytest.raises(ProtocolError, match="line 2, column 7"):
        read_protocol("format = 1\nkey = x\n")


def test_deep_nesting_is_refused_and_does_not_crash():
    with pytest.raises(ProtocolError):
        read_protocol("format = " + "[" * 100_000)


def test_a_text_over_one_megabyte_is_refused_before_it_is_read():
    with pytest.raises(ProtocolError, match="1 MB"):
        read_protocol(SMALL + "#" * 1_000_000)


def test_checking_a_file_finds_every_fault(tmp_path):
    path = tmp_path / "finger.toml"
    path.write_text(SMALL.replace("phase = 5", "phase = 6").replace("score = 2", "score = 99"))
    assert [fault.key for fault in check_file(path)] == [
        "stage 2, phase",
        "stage 2, entry 1, parameters.score",
    ]
    path.write_text(SMALL)
    assert check_file(path) == ()


def test_a_file_that_cannot_be_read_is_a_fault_and_not_a_crash(tmp_path):
    (missing,) = check_file(tmp_path / "none.toml")
    assert missing.file == "none.toml"
    (tmp_path / "latin.toml").write_bytes(b'name = "\xe9"')
    assert "UTF-8" in str(check_file(tmp_path / "latin.toml")[0])
    (tmp_path / "large.toml").write_bytes(b"#" * 5_000_000)
    assert "1 MB" in str(check_file(tmp_path / "large.toml")[0])


@given(cut=st.integers(0, len(SMALL)), junk=st.text(max_size=20))
def test_damage_is_refused_in_a_sentence_or_still_a_whole_protocol(cut, junk):
    try:
        protocol = read_protocol(SMALL[:cut] + junk + SMALL[cut + len(junk) :])
    except ProtocolError as fault:
        told = str(fault)
    else:
        told = protocol.name
    assert 0 < len(told) < 1000
