"""A protocol as a person would write it: sections of lines, each with its source."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum, auto

from teamrehab.domain.injuries import Urgency
from teamrehab.domain.protocol import Criterion, InjuryKind, Ladder, Protocol
from teamrehab.language import _, counted
from teamrehab.reports.wording import day_and_year
from teamrehab.reports.wording_protocol import (
    criterion_words,
    exercise_words,
    full_sessions_words,
    informs_words,
    ladder_rule,
    level_words,
    passed_words,
    pattern_words,
    rule_words,
    urgency_heading,
)


class LineKind(Enum):
    """What a line is for: to be told, to be heeded, or to lead in the lines after it."""

    TOLD = auto()
    CAUTION = auto()
    LEADS_IN = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtocolLine:
    """One line; ``step`` counts the levels of a ladder from 1, None elsewhere.

    ``source`` says where its numbers come from, "" where it has none of its own.
    """

    text: str
    source: str = ""
    step: int | None = None
    kind: LineKind = LineKind.TOLD


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtocolSection:
    """A heading and what stands under it; never empty.

    ``stage`` is the stage it is about, counted from 1, None where it is about none.
    """

    heading: str
    lines: tuple[ProtocolLine, ...]
    stage: int | None = None

    @property
    def warns(self) -> bool:
        """Return whether all of it is caution."""
        return all(line.kind is LineKind.CAUTION for line in self.lines)


def protocol_text(
    protocol: Protocol, catalogue: Mapping[str, InjuryKind]
) -> tuple[ProtocolSection, ...]:
    """Return a protocol section by section, in the order it is needed.

    What the protocol does not say has no section. ``catalogue`` names injuries and muscles.
    """
    found = (
        _section(protocol.name, _about(protocol, catalogue)),
        _section(_("Bear in mind"), _cautions(protocol.cautions)),
        *_red_flags(protocol),
        _section(_("Symptom allowed, by kind of work"), _rules(protocol)),
        *(_stage(protocol, number) for number in range(1, len(protocol.stages) + 1)),
        _section(_("Ready for sign-off when"), _criteria(protocol.sign_off, protocol)),
        *(_ladder(ladder, protocol) for ladder in protocol.ladders),
        _section(_("A repetition does not count when"), _faults(protocol)),
        _section(_("Exercises without levels"), _exercises(protocol)),
        _section(_("What an examination points to"), _patterns(protocol, catalogue)),
        _section(_("Which test says something in which phase"), _informs(protocol)),
        _section(_("Before the return"), _return(protocol, catalogue)),
        _section(_("After the return"), _watch(protocol)),
    )
    return tuple(section for section in found if section.lines)


def protocol_page(sections: Sequence[ProtocolSection]) -> str:
    """Return the sections as plain text; a source stands in brackets behind its line."""
    return "\n\n".join("\n".join(_printed(section)) for section in sections) + "\n"


def _printed(section: ProtocolSection) -> Iterator[str]:
    yield section.heading
    yield "-" * len(section.heading)
    for line in section.lines:
        text = line.text if line.step is None else f"{line.step}. {line.text}"
        yield f"{text} [{line.source}]" if line.source else text


def _section(
    heading: str, lines: Iterator[ProtocolLine], stage: int | None = None
) -> ProtocolSection:
    return ProtocolSection(heading=heading, lines=tuple(lines), stage=stage)


def _plain(sentences: Sequence[str]) -> Iterator[ProtocolLine]:
    return (ProtocolLine(text=sentence) for sentence in sentences)


def _cautions(sentences: Sequence[str]) -> Iterator[ProtocolLine]:
    return (ProtocolLine(text=sentence, kind=LineKind.CAUTION) for sentence in sentences)


def _about(protocol: Protocol, catalogue: Mapping[str, InjuryKind]) -> Iterator[ProtocolLine]:
    injuries = ", ".join(_injury_name(key, catalogue) for key in protocol.injuries)
    if protocol.starter:
        yield from _cautions([_("A starter: review before use.")])
    said = [_("For: {injuries}.").format(injuries=injuries)]
    said.append(_("Version {version}.").format(version=protocol.version))
    said.append(_reviewed(protocol))
    if protocol.may_sign:
        roles = ", ".join(_(role) for role in protocol.may_sign)
        said.append(_("Signed by: {roles}.").format(roles=roles))
    yield from _plain(said)


def _injury_name(key: str, catalogue: Mapping[str, InjuryKind]) -> str:
    if key in catalogue:
        return _(catalogue[key].name)
    return _("{key} (not in the catalogue: never offered)").format(key=key)


def _reviewed(protocol: Protocol) -> str:
    if not protocol.reviewed_by:
        return _("Reviewed by nobody yet.")
    if protocol.reviewed_on is None:
        return _("Reviewed by {name}.").format(name=protocol.reviewed_by)
    day = day_and_year(protocol.reviewed_on)
    return _("Reviewed by {name} on {day}.").format(name=protocol.reviewed_by, day=day)


def _red_flags(protocol: Protocol) -> Iterator[ProtocolSection]:
    for urgency in Urgency:
        signs = [sign for sign in protocol.guidance.signs if sign.urgency is urgency]
        lines = (
            ProtocolLine(text=sign.sentence, source=sign.source, kind=LineKind.CAUTION)
            for sign in signs
        )
        yield _section(urgency_heading(urgency), lines)


def _rules(protocol: Protocol) -> Iterator[ProtocolLine]:
    for rule in protocol.guidance.symptom_rules:
        yield ProtocolLine(text=rule_words(rule, protocol), source=rule.source)


def _stage(protocol: Protocol, number: int) -> ProtocolSection:
    stage = protocol.stages[number - 1]
    heading = _("Stage {number} of {stages}: {name}").format(
        number=number, stages=len(protocol.stages), name=stage.name
    )
    return _section(heading, _stage_lines(protocol, number), number)


def _stage_lines(protocol: Protocol, number: int) -> Iterator[ProtocolLine]:
    stage = protocol.stages[number - 1]
    if stage.caution:
        yield ProtocolLine(text=stage.caution, source=stage.source, kind=LineKind.CAUTION)
    if stage.symptom is not None:
        words = _("Symptom {most} at most in any ladder.").format(most=stage.symptom)
        yield ProtocolLine(text=words, source=stage.source)
    if stage.minutes is not None:
        words = counted(
            "A session is planned for {count} minute.",
            "A session is planned for {count} minutes.",
            stage.minutes,
        )
        yield ProtocolLine(text=words, source=stage.source)
    yield ProtocolLine(text=_("Phase {phase} of the estimate.").format(phase=stage.phase))
    if stage.entry:
        yield ProtocolLine(text=_("Opened when:"), kind=LineKind.LEADS_IN)
        yield from _criteria(stage.entry, protocol)
    if stage.exit:
        yield ProtocolLine(text=_("Left when:"), kind=LineKind.LEADS_IN)
        yield from _criteria(stage.exit, protocol)


def _criteria(criteria: Sequence[Criterion], protocol: Protocol) -> Iterator[ProtocolLine]:
    for each in criteria:
        words = (criterion_words(each), *passed_words(each.after, protocol))
        yield ProtocolLine(text=" ".join(words), source=each.source)


def _ladder(ladder: Ladder, protocol: Protocol) -> ProtocolSection:
    heading = _("Ladder: {name}").format(name=ladder.name)
    return _section(heading, _steps(ladder, protocol))


def _steps(ladder: Ladder, protocol: Protocol) -> Iterator[ProtocolLine]:
    yield ProtocolLine(text=ladder_rule(ladder, protocol), source=ladder.source)
    for step, level in enumerate(ladder.levels, start=1):
        yield ProtocolLine(text=level_words(level, ladder, protocol), step=step)


def _faults(protocol: Protocol) -> Iterator[ProtocolLine]:
    return _plain([fault.name for fault in protocol.faults])


def _exercises(protocol: Protocol) -> Iterator[ProtocolLine]:
    for each in protocol.guidance.exercises:
        yield ProtocolLine(text=exercise_words(each, protocol), source=each.source)


def _patterns(
    protocol: Protocol, catalogue: Mapping[str, InjuryKind]
) -> Iterator[ProtocolLine]:
    names = _muscle_names(catalogue)
    for each in protocol.intake:
        yield ProtocolLine(text=pattern_words(each, names), source=each.source)


def _informs(protocol: Protocol) -> Iterator[ProtocolLine]:
    for each in protocol.guidance.informs:
        yield ProtocolLine(text=informs_words(each), source=each.source)


def _return(protocol: Protocol, catalogue: Mapping[str, InjuryKind]) -> Iterator[ProtocolLine]:
    names = _muscle_names(catalogue)
    for item in protocol.guidance.checklist:
        text = item.sentence
        if item.muscle:
            muscle = names.get(item.muscle, item.muscle)
            text = _("{muscle}: {sentence}").format(muscle=muscle, sentence=item.sentence)
        yield ProtocolLine(text=text, source=item.source)
    for row in protocol.guidance.full_sessions:
        yield ProtocolLine(text=full_sessions_words(row), source=row.source)


def _watch(protocol: Protocol) -> Iterator[ProtocolLine]:
    watch = protocol.guidance.watch
    if watch is not None:
        text = counted(
            "Watched for the same injury for {count} day.",
            "Watched for the same injury for {count} days.",
            watch.days,
        )
        yield ProtocolLine(text=text, source=watch.source)


def _muscle_names(catalogue: Mapping[str, InjuryKind]) -> dict[str, str]:
    return {m.key: _(m.name) for kind in catalogue.values() for m in kind.muscles}
