"""What another version of a protocol changes is said in sentences, and nothing is left out."""

from dataclasses import replace
from typing import Any

import pytest

from teamrehab.domain.protocol import Protocol
from teamrehab.protocols import load_protocols
from teamrehab.reports.version_changes import version_changes

CALF = load_protocols()["calf_strain"]


def with_exit(number: int, **changes) -> Protocol:
    """Return the protocol with other exits of one stage."""
    stages = list(CALF.stages)
    stages[number] = replace(stages[number], **changes)
    return replace(CALF, stages=tuple(stages))


def test_a_version_that_treats_a_case_alike_changes_nothing():
    assert version_changes(CALF, CALF) == ()
    assert version_changes(CALF, replace(CALF, version="9", reviewed_by="Kim Vale")) == ()


def test_a_criterion_that_came_went_or_changed_is_said_with_its_stage():
    (first, *rest) = CALF.sign_off
    without = replace(CALF, sign_off=tuple(rest))
    assert version_changes(CALF, without)[0].startswith(
        f"For the sign-off, no longer asked for: {first.sentence}"
    )
    assert version_changes(without, CALF)[0].startswith(
        f"For the sign-off, newly asked for: {first.sentence}"
    )
    harder = replace(first, sentence="Something harder")
    (said,) = version_changes(CALF, replace(without, sign_off=(harder, *rest)))
    assert said.startswith("For the sign-off: Something harder")
    assert "Before: " in said


def test_other_numbers_behind_the_same_sentence_are_not_passed_over():
    first = next(one for one in CALF.sign_off if "percent" in one.parameters)
    other = replace(first, parameters={**first.parameters, "percent": 7})
    swapped = tuple(other if one is first else one for one in CALF.sign_off)
    (said,) = version_changes(CALF, replace(CALF, sign_off=swapped))
    assert "judged by other numbers" in said


def test_a_criterion_asked_for_earlier_says_where_it_stood():
    gate = next(n for n, stage in enumerate(CALF.stages) if n and stage.entry)
    moved = CALF.stages[gate].entry[0]
    stages = list(CALF.stages)
    stages[gate] = replace(stages[gate], entry=stages[gate].entry[1:])
    stages[-1] = replace(stages[-1], exit=(*stages[-1].exit, moved))
    (said,) = version_changes(CALF, replace(CALF, stages=tuple(stages)))
    assert said.startswith(f"To leave {CALF.stages[-1].name}: {moved.sentence}")
    assert said.endswith(f"It stood elsewhere before: To leave {CALF.stages[gate - 1].name}.")


@pytest.mark.parametrize("part", ["ladders", "guidance", "stages"])
def test_ladders_rules_red_flags_and_stages_are_told_when_they_change(part):
    guidance = CALF.guidance
    fewer = replace(
        guidance, signs=guidance.signs[1:], symptom_rules=guidance.symptom_rules[1:]
    )
    changes: dict[str, Any] = {
        "ladders": CALF.ladders[1:],
        "guidance": fewer,
        "stages": CALF.stages[1:],
    }
    less = {part: changes[part]}
    small = replace(CALF, **less)
    gone, come = " ".join(version_changes(CALF, small)), " ".join(version_changes(small, CALF))
    expected = {
        "ladders": ("There is no ladder", "New ladder"),
        "guidance": ("No longer asked for as a red flag", "Now: "),
        "stages": ("There is no stage Settle any more.", "New stage: Settle."),
    }[part]
    assert expected[0] in gone
    assert expected[1] in come


def test_a_step_that_asks_for_more_is_said_with_all_steps_of_its_ladder():
    ladder = CALF.ladders[-1]
    levels = (replace(ladder.levels[0], sets=9), *ladder.levels[1:])
    more = replace(CALF, ladders=(*CALF.ladders[:-1], replace(ladder, levels=levels)))
    (said,) = version_changes(CALF, more)
    assert said.startswith(f"{ladder.name}, its levels now: 1. ")
    assert "9 x" in said
