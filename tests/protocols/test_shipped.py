"""The protocols and the catalogue that travel with the program."""

import re
from collections.abc import Iterator

import pytest

from teamrehab.domain.injuries import ProtocolChosen
from teamrehab.domain.protocol import Criterion, Protocol, followed, version_order
from teamrehab.locations import RESOURCES
from teamrehab.protocols import (
    body_areas,
    check_file,
    injury_catalogue,
    load_protocols,
    protocols_for,
    read_file,
)
from teamrehab.protocols.catalogue import read_catalogue
from teamrehab.protocols.errors import ProtocolError
from tests.builders import day, history

SOURCE = re.compile(r"common practice|\w.* \d{4};\d+(\(\d+\))?:\d+")
CHECKLIST = "Sports Med Open 2022;8:10, doi 10.1186/s40798-021-00364-0"
PRACTICE = "common practice"

CALF_NUMBERS = {
    # criterion: (what the protocol asks for, common range, beginning of its source)
    "walks": ({"symptom": 2}, "", PRACTICE),
    "stairs": ({"symptom": 2}, "", PRACTICE),
    "swelling": ({"symptom": 2}, "", PRACTICE),
    "double_leg_raise": ({"symptom": 2}, "", PRACTICE),
    "straight_15": ({"repetitions": 15, "symptom": 3}, "", PRACTICE),
    "bent_15": ({"repetitions": 15, "symptom": 3}, "", PRACTICE),
    "raises_target": ({"repetitions": 25, "percent": 90, "symptom": 1}, "25-30", PRACTICE),
    "bent_within_10": (
        {"percent": 10, "days": 2, "floor": 25, "symptom": 1},
        "",
        f"{PRACTICE}; within 10 %: {CHECKLIST}",
    ),
    "loaded_bent": ({"percent": 10, "least": 6, "most": 8, "symptom": 1}, "", PRACTICE),
    "loaded_straight": ({"percent": 10, "least": 6, "most": 8, "symptom": 1}, "", PRACTICE),
    "hops_20": ({"hops": 20, "symptom": 1}, "10-20", PRACTICE),
    "brisk_walk": ({"symptom": 1}, "", PRACTICE),
    "mornings_to_run": ({"mornings": 2, "symptom": 1}, "", PRACTICE),
    "no_signs_to_run": ({"symptom": 0}, "", PRACTICE),
    "calm_to_run": ({"score": 1, "days": 1}, "", PRACTICE),
    "hop_forward": ({"level": 4}, "", PRACTICE),
    "clean_runs_3": ({"runs": 3, "before": 80, "symptom": 1}, "", PRACTICE),
    "speed_90": ({"percent": 90, "days": 2, "symptom": 1}, "", PRACTICE),
    "turns": ({"symptom": 1}, "", PRACTICE),
    "calm_to_train": ({"score": 1, "days": 1}, "", PRACTICE),
    "session_with_limits": ({"sessions": 1, "symptom": 1}, "", PRACTICE),
    "full_sessions": ({"symptom": 1}, "", PRACTICE),
    "raises_30": ({"repetitions": 30, "symptom": 0}, "", CHECKLIST),
    "raises_within_10": (
        {"percent": 10, "days": 2, "floor": 30, "symptom": 0},
        "",
        f"{CHECKLIST}; twice or with the height: {PRACTICE}",
    ),
    "to_wall_within_10": ({"percent": 10, "symptom": 0}, "", CHECKLIST),
    "jump_within_10": ({"percent": 10, "symptom": 0}, "", CHECKLIST),
    "reactive_within_10": ({"percent": 10, "symptom": 0}, "", CHECKLIST),
    "no_signs_to_play": ({"symptom": 0}, "", CHECKLIST),
    "calm_to_play": ({"score": 0, "days": 1}, "", CHECKLIST),
}


def criteria(protocol: Protocol) -> Iterator[Criterion]:
    for stage in range(1, len(protocol.stages) + 1):
        yield from protocol.gate(stage)


def numbers(criterion: Criterion) -> dict[str, int]:
    given = criterion.parameters.items()
    return {name: value for name, value in given if isinstance(value, int)}


def test_every_number_of_the_calf_file_stands_in_the_table_with_its_source():
    found = {c.key: c for c in criteria(load_protocols()["calf_strain"])}
    for c in found.values():
        print(f"{c.key:20} {numbers(c)!s:34} {c.range:7} {c.source}")
    assert {key: (numbers(c), c.range) for key, c in found.items()} == {
        key: row[:2] for key, row in CALF_NUMBERS.items()
    }
    for key, (_asked, _range, source) in CALF_NUMBERS.items():
        assert found[key].source.startswith(source)


def test_the_calf_protocol_has_the_five_stages_in_order():
    calf = load_protocols()["calf_strain"]
    assert [stage.name for stage in calf.stages] == [
        "Settle",
        "Strength",
        "Hop and jump",
        "Running",
        "Team training",
    ]
    assert calf.phases == (1, 2, 3, 4, 5)
    assert not calf.starter


def test_every_protocol_but_the_first_says_that_it_is_a_starter():
    assert {key for key, one in load_protocols().items() if not one.starter} == {"calf_strain"}


OFFERED = [
    ("calf_strain", ["calf_strain"]),
    ("hamstring_strain", ["hamstring_strain", "lower_limb_starter"]),
    ("ankle_sprain", ["ankle_sprain", "lower_limb_starter"]),
    ("achilles_tendinopathy", ["achilles_tendinopathy"]),
    ("adductor_strain", ["lower_limb_starter"]),
]


@pytest.mark.parametrize(("injury", "offered"), OFFERED)
def test_the_more_specific_protocol_is_offered_first(injury, offered):
    assert [key for key, one in load_protocols().items() if injury in one.injuries] == offered


def test_a_case_keeps_the_protocol_it_chose():
    kept = followed(history(chose("1", "lower_limb_starter")), load_protocols())
    assert kept.protocol is not None
    assert (kept.protocol.key, kept.changed) == ("lower_limb_starter", False)


FILES = sorted((RESOURCES / "protocols").glob("*.toml"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_shipped_protocol_has_no_fault_and_a_source_for_each_criterion(path):
    assert check_file(path) == ()
    protocol = next(p for p in load_protocols().values() if p.key == path.stem)
    assert all(SOURCE.match(criterion.source) for criterion in criteria(protocol))
    assert set(protocol.injuries) <= set(injury_catalogue())


def test_the_numbers_a_sentence_names_are_the_numbers_asked_for():
    for protocol in load_protocols().values():
        for c in criteria(protocol):
            said = {int(n) for n in re.findall(r"\d+", c.sentence)}
            words = {"One": 1, "Two": 2, "Three": 3}
            said |= {n for word, n in words.items() if c.sentence.startswith(word)}
            main = set(numbers(c).values()) - {
                numbers(c).get("symptom"),
                numbers(c).get("days"),
            }
            assert main <= said, c.key


def test_the_catalogue_holds_what_priors_and_protocols_refer_to():
    catalogue = injury_catalogue()
    assert {"soleus", "gastrocnemius"} == {m.key for m in catalogue["calf_strain"].muscles}
    assert {
        "hamstring_strain",
        "ankle_sprain",
        "adductor_strain",
        "quadriceps_strain",
        "achilles_tendinopathy",
        "concussion",
        "other",
    } <= set(catalogue)
    assert all(kind.name for kind in catalogue.values())


def test_what_is_offered_as_a_body_area_is_one_and_other_comes_last():
    *areas, last = body_areas()
    assert last == "other"
    assert not {"any", "all", "none", ""} & set(areas)
    named = {kind.area for kind in injury_catalogue().values()} - {""}
    assert {"lower leg", "thigh", "head"} <= named <= set(areas)
    assert len(set(areas)) == len(areas)


def test_a_damaged_catalogue_is_refused_by_key():
    areas = 'areas = ["knee", "other"]\n'
    with pytest.raises(ProtocolError, match="injury 1, name"):
        read_catalogue(f'{areas}[[injury]]\nkey = "x"\n', "injuries.toml")
    injury = '[[injury]]\nkey = "x"\nname = "X"\narea = "any"\n'
    with pytest.raises(ProtocolError, match=r"injury 1, area: any .*knee, other"):
        read_catalogue(areas + injury, "injuries.toml")
    with pytest.raises(ProtocolError, match="Did you mean injury"):
        read_catalogue(f"{areas}[[injry]]\n", "injuries.toml")
    with pytest.raises(ProtocolError, match="areas"):
        read_catalogue('[[injury]]\nkey = "x"\nname = "X"\n', "injuries.toml")


def test_every_protocol_lies_in_a_file_that_bears_its_key_and_is_found_by_it():
    files = {path.stem for path in (RESOURCES / "protocols").glob("*.toml")}
    assert set(load_protocols()) == files
    calf = load_protocols()["calf_strain"]
    wanted = [chose(calf.version), chose("1", "nowhere"), chose("1", "../injuries")]
    assert protocols_for(wanted) == {"calf_strain": calf}


def test_every_earlier_version_lies_in_a_file_that_bears_key_and_version():
    paths = sorted((RESOURCES / "protocols" / "earlier").glob("*.toml"))
    assert paths
    for path in paths:
        protocol = read_file(path)
        assert path.stem == f"{protocol.key}_{protocol.version}"
        newest = load_protocols()[protocol.key]
        assert version_order(protocol.version) < version_order(newest.version)
        assert protocol in newest.earlier


def test_a_case_keeps_the_version_it_began_with_and_the_squad_reads_no_other():
    newest = load_protocols()["calf_strain"]
    for version in ("1", newest.version):
        for here in (load_protocols(), protocols_for([chose(version)])):
            assert shown(version, here) == (version, False)
    (alone,) = protocols_for([chose("1")]).values()
    assert (alone.version, alone.earlier) == ("1", ())
    both = protocols_for([chose("1"), chose(newest.version)])["calf_strain"]
    assert [one.version for one in (both, *both.earlier)] == [newest.version, "1"]


@pytest.mark.parametrize(("version", "nearest"), [("99", "2"), ("1.5", "1"), ("0.7", "1")])
def test_for_a_version_that_is_lacking_the_nearest_is_shown_and_said(version, nearest):
    for here in (load_protocols(), protocols_for([chose(version)])):
        assert shown(version, here) == (nearest, True)


def test_the_numbers_in_a_version_count_as_numbers():
    ordered = ["1", "1 b", "1.2", "1.10", "2", "9", "10"]
    assert sorted(set(ordered), key=version_order) == ordered
    assert sorted(ordered) != ordered


def shown(version: str, here: dict[str, Protocol]) -> tuple[str, bool]:
    kept = followed(history(chose(version)), here)
    assert kept.protocol is not None
    return kept.protocol.version, kept.changed


def chose(version: str, key: str = "calf_strain") -> ProtocolChosen:
    return ProtocolChosen(
        case_id="c1", athlete_id="a1", on=day(1), protocol=key, version=version
    )
