"""Ladders, form faults and intake patterns of a file are read, or refused by name."""

import pytest

from teamrehab.domain.examination import Examination, OnsetKind, Resisted
from teamrehab.domain.protocol import IntakePattern, Ladder, Level
from teamrehab.protocols import ProtocolError, injury_catalogue, load_protocols, read_protocol
from teamrehab.protocols.intake import answers
from tests.protocols.test_reading import SMALL

LADDERS = """
[[ladder]]
key = "grip"
name = "Grip"
stage = 1
until = 2
symptom = 3
source = "common practice"

[[ladder.level]]
name = "soft ball"
sets = 3
dose = "12 repetitions"

[[ladder.level]]
name = "hard ball"
sets = 2
dose = "8 repetitions"
stage = 2

[[ladder]]
key = "hang"
name = "Hang"
stage = 2
symptom = 1
source = "common practice"
level = [{ name = "both hands", sets = 3, dose = "20 s" }]

[[fault]]
key = "slip"
name = "Slips"

[[fault]]
key = "jerk"
name = "Jerks"

[[intake]]
finding = "onset"
value = "sudden"
muscle = "rectus_femoris"
weight = 2
source = "common practice"

[[intake]]
finding = "stretch_bent"
value = "yes"
muscle = "vasti"
weight = 1
source = "common practice"
"""
WHOLE = (
    SMALL.replace('["finger_sprain"]', '["quadriceps_strain"]').replace(
        'name = "Rest"', 'name = "Rest"\nminutes = 30\nsymptom = 2'
    )
    + LADDERS
)


def test_ladders_faults_patterns_and_minutes_are_read():
    protocol = read_protocol(WHOLE)
    grip, hang = protocol.ladders
    assert grip == Ladder(
        key="grip",
        name="Grip",
        stage=1,
        until=2,
        symptom=3,
        source="common practice",
        levels=(
            Level(name="soft ball", sets=3, dose="12 repetitions"),
            Level(name="hard ball", sets=2, dose="8 repetitions", stage=2),
        ),
    )
    assert (hang.until, [level.name for level in hang.levels]) == (None, ["both hands"])
    assert [(fault.key, fault.name) for fault in protocol.faults] == [
        ("slip", "Slips"),
        ("jerk", "Jerks"),
    ]
    assert protocol.intake[0] == IntakePattern(
        finding="onset",
        value="sudden",
        muscle="rectus_femoris",
        weight=2,
        source="common practice",
    )
    assert [(stage.minutes, stage.symptom) for stage in protocol.stages] == [
        (30, 2),
        (None, None),
    ]


def test_a_protocol_needs_no_ladders():
    protocol = read_protocol(SMALL)
    assert (protocol.ladders, protocol.faults, protocol.intake) == ((), (), ())


FAULTS = [
    ("minutes = 30", "minutes = 0", "stage 1, minutes", "0", "1 to 300"),
    ("minutes = 30", 'minutes = "x"', "stage 1, minutes", "x", "1 to 300"),
    ("minutes = 30", "mintues = 30", "stage 1, mintues", "mintues", "Did you mean minutes?"),
    ("symptom = 2", "symptom = 11", "stage 1, symptom", "11", "0 to 10"),
    ('key = "grip"', "", "ladder 1, key", "nothing", "a text"),
    ('key = "grip"', 'key = "hang"', "ladder, key", "hang", "each name once"),
    ('name = "Grip"', 'name = "Hang"', "ladder, name", "Hang", "each name once"),
    ("stage = 1", "stage = 3", "ladder 1, stage", "3", "1 to 2"),
    ("until = 2", "until = 0", "ladder 1, until", "0", "1 to 2"),
    ("until = 2", "unitl = 2", "ladder 1, unitl", "unitl", "Did you mean until?"),
    ("symptom = 3", "symptom = -1", "ladder 1, symptom", "-1", "0 to 10"),
    ("symptom = 3", "", "ladder 1, symptom", "nothing", "0 to 10"),
    ("sets = 3", "sets = 0", "ladder 1, level 1, sets", "0", "1 to 20"),
    ("sets = 3", "sets = 2.5", "ladder 1, level 1, sets", "2.5", "1 to 20"),
    ('name = "hard ball"', 'name = ""', "ladder 1, level 2, name", "", "a text"),
    (
        'name = "hard ball"',
        'name = "soft ball"',
        "ladder 1, level, name",
        "soft ball",
        "each name once",
    ),
    (
        'dose = "8 repetitions"',
        "does = 8",
        "ladder 1, level 2, dose",
        "nothing",
        "a text",
    ),
    (
        'dose = "8 repetitions"\nstage = 2',
        'dose = "8 repetitions"\nstage = 5',
        "ladder 1, level 2, stage",
        "5",
        "1 to 2",
    ),
    (
        '"12 repetitions"\n\n[[ladder.level]]\nname = "hard ball"\nsets = 2\n'
        'dose = "8 repetitions"\nstage = 2',
        '"12 repetitions"\nstage = 2\n\n[[ladder.level]]\nname = "hard ball"\nsets = 2\n'
        'dose = "8 repetitions"\nstage = 1',
        "ladder 1, level 2, stage",
        "1",
        "2 or more, as in the level before",
    ),
    (
        'level = [{ name = "both hands", sets = 3, dose = "20 s" }]',
        "",
        "ladder 2, level",
        "nothing",
        "at least one [[ladder.level]]",
    ),
    (
        'level = [{ name = "both hands", sets = 3, dose = "20 s" }]',
        "level = 3",
        "ladder 2, level",
        "3",
        "a list of tables",
    ),
    ("[[ladder.level]]", "[[ladder.levle]]", "ladder 1, levle", "levle", "Did you mean level?"),
    ('key = "slip"', 'key = "jerk"', "fault, key", "jerk", "each name once"),
    ('name = "Slips"', "", "fault 1, name", "nothing", "a text"),
    ('"onset"', '"onst"', "intake 1, finding", "onst", "Did you mean onset?"),
    ('"onset"', '"tender_mm"', "intake 1, finding", "tender_mm", "one of: onset"),
    ('"onset"', '"text"', "intake 1, finding", "text", "one of: onset"),
    ('"sudden"', '"suden"', "intake 1, value", "suden", "Did you mean sudden?"),
    ('"sudden"', "true", "intake 1, value", "True", "a text"),
    ('"yes"', '"often"', "intake 2, value", "often", "one of: yes, no"),
    ('"vasti"', '"vast"', "intake 2, muscle", "vast", "Did you mean vasti?"),
    ('"vasti"', '"soleus"', "intake 2, muscle", "soleus", "one of: rectus_femoris, vasti"),
    ("weight = 2", "weight = 0", "intake 1, weight", "0", "1 to 10"),
    (
        'finding = "stretch_bent"\nvalue = "yes"\nmuscle = "vasti"',
        'finding = "onset"\nvalue = "sudden"\nmuscle = "rectus_femoris"',
        "intake",
        "onset, sudden, rectus_femoris",
        "Take one of them out.",
    ),
]


@pytest.mark.parametrize(("before", "after", "key", "value", "said"), FAULTS)
def test_a_fault_is_named_by_file_key_value_and_what_is_allowed(
    before, after, key, value, said
):
    assert before in WHOLE
    start = WHOLE.index("[[ladder]]") if before in LADDERS else 0
    text = WHOLE[:start] + WHOLE[start:].replace(before, after, 1)
    with pytest.raises(ProtocolError) as caught:
        read_protocol(text, "finger.toml")
    fault = caught.value
    assert (fault.file, fault.key, fault.value) == ("finger.toml", key, value)
    assert said in str(fault)
    assert fault.remedy.endswith((".", "?"))


def test_an_injury_without_muscles_takes_no_pattern():
    with pytest.raises(ProtocolError, match="no muscle for these injuries"):
        read_protocol(WHOLE.replace('["quadriceps_strain"]', '["finger_sprain"]'))


def test_a_pattern_may_ask_for_whatever_an_examination_answers_and_for_nothing_else():
    known = answers()
    assert known["onset"] == tuple(OnsetKind)
    assert known["resisted_bent"] == tuple(Resisted)
    assert known["more_load"] == ("yes", "no")
    assert not known.keys() & {"site", "text", "on", "case_id", "tender_mm", "tender_where"}
    assert known.keys() <= Examination.__dataclass_fields__.keys()


# --- the ladders that travel with the program


def test_every_ladder_and_pattern_of_a_shipped_file_says_where_it_comes_from():
    protocols = load_protocols().values()
    sources = [ladder.source for protocol in protocols for ladder in protocol.ladders]
    sources += [one.source for protocol in protocols for one in protocol.intake]
    assert len(sources) > 20
    assert all(source.startswith("common practice") for source in sources)
    assert all(stage.minutes for protocol in protocols for stage in protocol.stages)


def ladders(stage):
    protocol = load_protocols()["calf_strain"]
    return [ladder.key for ladder in protocol.ladders if ladder.open_at(stage)]


def test_the_calf_ladders_open_with_their_stages_and_the_first_two_end_with_the_first():
    raises = ["raise_straight", "raise_leaning", "raise_seated", "raise_bent"]
    assert ladders(1) == ["before_weight", "holds", "raise_straight", "raise_seated"]
    assert ladders(2) == raises
    for stage in (3, 4, 5):
        assert ladders(stage) == [*raises, "hop", "jump"]


def test_slow_work_allows_a_symptom_of_three_hops_and_jumps_of_one_and_settling_of_two():
    # judgement by kind of work; hops and jumps: Sports Med Open 2022;8:10 asks for 0 to play
    calf = load_protocols()["calf_strain"]
    allowed = {ladder.key: ladder.symptom for ladder in calf.ladders}
    slow = [allowed[key] for key in ("raise_straight", "raise_seated", "raise_bent")]
    assert (slow, allowed["hop"], allowed["jump"]) == ([3, 3, 3], 1, 1)
    assert [stage.symptom for stage in calf.stages] == [2, None, None, None, None]
    assert "symptom of 2 at most" in calf.stages[0].caution


WORSE = [
    (Resisted.WEAK, Resisted.PAINFUL, "gastrocnemius"),
    (Resisted.PAINFUL, Resisted.STRONG, "gastrocnemius"),
    (Resisted.PAINFUL, Resisted.UNABLE, "soleus"),
    (Resisted.STRONG, Resisted.WEAK, "soleus"),
    (Resisted.WEAK, Resisted.WEAK, None),
]


@pytest.mark.parametrize(("straight", "bent", "muscle"), WORSE)
def test_the_knee_angle_that_resists_worse_points_to_its_muscle(straight, bent, muscle):
    found = {("resisted_straight", straight.value), ("resisted_bent", bent.value)}
    total = {one.key: 0 for one in injury_catalogue()["calf_strain"].muscles}
    for one in load_protocols()["calf_strain"].intake:
        total[one.muscle] += one.weight * ((one.finding, one.value) in found)
    most = [key for key, weight in total.items() if weight == max(total.values())]
    assert most == ([muscle] if muscle else list(total))
