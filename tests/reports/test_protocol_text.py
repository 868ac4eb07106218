"""A protocol reads as a person would write it: nothing of the file is left unsaid."""

import tomllib
from collections.abc import Iterator
from typing import Any

from teamrehab.domain.protocol import Protocol
from teamrehab.locations import RESOURCES
from teamrehab.protocols import injury_catalogue, load_protocols, read_protocol
from teamrehab.reports.protocol_text import (
    LineKind,
    ProtocolLine,
    ProtocolSection,
    protocol_page,
    protocol_text,
)
from tests.protocols.test_guidance import FULL
from tests.protocols.test_reading import SMALL

WRITTEN = {"name", "sentence", "source", "dose", "caution", "cautions", "range", "version"}
CATALOGUE = injury_catalogue()


def sections(protocol: Protocol) -> dict[str, tuple[ProtocolLine, ...]]:
    return {each.heading: each.lines for each in protocol_text(protocol, CATALOGUE)}


def test_a_ladder_reads_as_numbered_steps_with_its_dose_and_what_comes_before():
    said = sections(read_protocol(FULL))
    assert said["Ladder: Grip"] == (
        ProtocolLine(text="From Rest to Play. Symptom 3 at most.", source="common practice"),
        ProtocolLine(text="soft ball: 3 x 12 repetitions.", step=1),
        ProtocolLine(text="hard ball: 2 x 8 repetitions. From Play on.", step=2),
    )
    first = said["Ladder: Hang"][1]
    assert first.text == "both hands: 3 x 20 s. After Grip, level 2, was passed."


def test_a_stage_tells_its_caution_before_its_criteria():
    for protocol in load_protocols().values():
        staged = [each for each in protocol_text(protocol, CATALOGUE) if each.stage]
        assert [each.stage for each in staged] == list(range(1, len(protocol.stages) + 1))
        for section, stage in zip(staged, protocol.stages, strict=True):
            kinds = [line.kind for line in section.lines]
            assert (kinds[0] is LineKind.CAUTION) is bool(stage.caution)
            assert kinds.count(LineKind.LEADS_IN) == bool(stage.entry) + bool(stage.exit)


def test_a_criterion_reads_as_a_sentence_with_its_range_and_its_source():
    said = sections(read_protocol(FULL))
    calm = said["Stage 2 of 2: Play"][-1]
    assert calm.text == "Symptom 0-2 on two days. Common range 0-2."
    assert calm.source == "common practice"


def test_the_symptom_a_test_allows_is_told_once():
    said = sections(load_protocols()["calf_strain"])["Stage 4 of 5: Running"]
    texts = [line.text for line in said]
    assert (
        "20 single-leg hops in place at symptom 0-1. Common range 10-20. After Hop, level 2,"
        " was passed. After Straight-knee raise, level 2, was passed. After Bent-knee raise,"
        " standing, level 2, was passed."
    ) in texts
    assert "No signs or symptoms. Symptom 0 at most." in texts


def test_every_word_and_every_source_of_a_shipped_protocol_stands_on_its_page():
    for protocol in load_protocols().values():
        page = protocol_page(protocol_text(protocol, CATALOGUE))
        path = RESOURCES / "protocols" / f"{protocol.key}.toml"
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        assert [text for text in texts(table) if text not in page] == []
        assert ("starter" in page) is protocol.starter


def texts(table: dict[str, Any]) -> Iterator[str]:
    """Yield what a person wrote: sentences, names, doses, cautions, sources."""
    for key, value in table.items():
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, dict) and key != "parameters":
                yield from texts(one)
            elif isinstance(one, str) and key in WRITTEN:
                yield one.rstrip(".") if key == "sentence" else one


def test_what_a_protocol_does_not_say_has_no_section():
    headings = list(sections(read_protocol(SMALL)))
    assert headings == [
        "Finger",
        "Bear in mind",
        "Stage 1 of 2: Rest",
        "Stage 2 of 2: Play",
        "Ready for sign-off when",
    ]


def test_an_injury_that_the_catalogue_lacks_is_said_never_to_be_offered():
    about = sections(read_protocol(SMALL))["Finger"]
    texts = [line.text for line in about]
    assert texts[0] == "For: finger_sprain (not in the catalogue: never offered)."
    assert "Reviewed by A doctor on Mon 5 Oct 2026." in texts


def test_red_flags_are_told_by_urgency_the_emergency_first():
    headings = [h for h in sections(read_protocol(FULL)) if h.startswith("Red flags")]
    assert headings == ["Red flags: emergency care now", "Red flags: a doctor the same day"]


def test_a_page_puts_the_source_behind_its_line_and_numbers_the_steps():
    lines = (ProtocolLine(text="Wait.", source="a study"), ProtocolLine(text="go", step=2))
    page = protocol_page([ProtocolSection(heading="Now", lines=lines)])
    assert page == "Now\n---\nWait. [a study]\n2. go\n"
