"""What another version of a protocol changes for a case that is moved to it, as sentences."""

from collections.abc import Iterator, Mapping

from teamrehab.domain.protocol import Criterion, Ladder, Protocol
from teamrehab.language import _
from teamrehab.reports.wording_protocol import criterion_words, level_words, rule_words


def version_changes(old: Protocol, new: Protocol) -> tuple[str, ...]:
    """Return what ``new`` asks, allows or offers otherwise than ``old``, stage by stage.

    () where a case is treated alike by both. Sources and remarks are not compared.
    """
    return (
        *_stages(old, new),
        *_criteria(old, new),
        *_ladders(old, new),
        *_allowed(old, new),
        *_named(
            _signs(old), _signs(new), _("Red flag"), _("No longer asked for as a red flag")
        ),
    )


def _stages(old: Protocol, new: Protocol) -> Iterator[str]:
    before, after = ({stage.name: stage for stage in one.stages} for one in (old, new))
    for name in [name for name in after if name not in before]:
        yield _("New stage: {name}.").format(name=name)
    for name in [name for name in before if name not in after]:
        yield _("There is no stage {name} any more.").format(name=name)
    orders = (
        [name for name in one if name in before and name in after] for one in (before, after)
    )
    if next(orders) != next(orders):
        yield _("The stages come in another order.")


def _criteria(old: Protocol, new: Protocol) -> Iterator[str]:
    """Yield what is asked for newly, otherwise, or no longer, to leave each stage."""
    before, after = _asked(old), _asked(new)
    for key, (where, criterion) in after.items():
        words = {"where": where, "new": _bare(criterion)}
        if key not in before:
            yield _("{where}, newly asked for: {new}.").format(**words)
            continue
        place, known = before[key]
        yield from _otherwise(known, criterion, where)
        if place != where:
            said = _("{where}: {new}. It stood elsewhere before: {place}.")
            yield said.format(**words, place=place)
    for key, (where, criterion) in before.items():
        if key not in after:
            said = _("{where}, no longer asked for: {old}.")
            yield said.format(where=where, old=_bare(criterion))


def _otherwise(old: Criterion, new: Criterion, where: str) -> Iterator[str]:
    """Yield how a criterion is asked for otherwise than before."""
    words = {"where": where, "new": _bare(new), "old": _bare(old)}
    if words["old"] != words["new"]:
        yield _("{where}: {new}. Before: {old}.").format(**words)
    elif (old.check, old.parameters) != (new.check, new.parameters):
        yield _("{where}, judged by other numbers: {new}.").format(**words)
    elif old.after != new.after:
        yield _("{where}, tested after other levels: {new}.").format(**words)


def _asked(protocol: Protocol) -> dict[str, tuple[str, Criterion]]:
    """Return each criterion by key, with where it is asked for."""
    found: dict[str, tuple[str, Criterion]] = {}
    for number, stage in enumerate(protocol.stages, start=1):
        where = _("To leave {stage}").format(stage=stage.name)
        last = number == len(protocol.stages)
        gate = stage.exit if last else protocol.gate(number)
        found |= {criterion.key: (where, criterion) for criterion in gate}
    return found | {one.key: (_("For the sign-off"), one) for one in protocol.sign_off}


def _bare(criterion: Criterion) -> str:
    return criterion_words(criterion).rstrip(".")


def _ladders(old: Protocol, new: Protocol) -> Iterator[str]:
    before, after = ({ladder.key: ladder for ladder in one.ladders} for one in (old, new))
    for key, ladder in after.items():
        if key not in before:
            yield _("New ladder: {name}.").format(name=ladder.name)
        elif _steps(before[key], old) != _steps(ladder, new):
            yield _("{name}, its levels now: {steps}").format(
                name=ladder.name, steps=" ".join(_steps(ladder, new))
            )
    for key in [key for key in before if key not in after]:
        yield _("There is no ladder {name} any more.").format(name=before[key].name)


def _steps(ladder: Ladder, protocol: Protocol) -> list[str]:
    return [
        _("{number}. {level}").format(number=number, level=level_words(level, ladder, protocol))
        for number, level in enumerate(ladder.levels, start=1)
    ]


def _allowed(old: Protocol, new: Protocol) -> Iterator[str]:
    """Yield the symptom rules that are new, and those that hold no longer."""
    before, after = (
        {rule_words(rule, one): "" for rule in one.guidance.symptom_rules} for one in (old, new)
    )
    yield from (_("Now: {rule}").format(rule=rule) for rule in after if rule not in before)
    said = _("No longer: {rule}")
    yield from (said.format(rule=rule) for rule in before if rule not in after)


def _signs(protocol: Protocol) -> dict[str, str]:
    return {sign.key: sign.sentence for sign in protocol.guidance.signs}


def _named(
    before: Mapping[str, str], after: Mapping[str, str], new: str, gone: str
) -> Iterator[str]:
    for words, these, others in ((new, after, before), (gone, before, after)):
        for key, sentence in these.items():
            if sentence != others.get(key) and not (words == gone and key in others):
                yield _("{what}: {sentence}.").format(what=words, sentence=sentence.rstrip("."))
