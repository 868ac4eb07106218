"""A criterion in few words for the first screen: what is asked, the number now and needed.

The whole sentence of the protocol stands in the list of criteria further down.
"""

import re
from collections.abc import Callable, Iterator, Mapping

from teamrehab.domain.course_checks import observation_name
from teamrehab.domain.decision import CriterionResult, Evidence, Verdict
from teamrehab.domain.measures import Knee, SessionKind
from teamrehab.language import _
from teamrehab.reports.wording import day_words
from teamrehab.reports.wording_clinical import (
    number_words,
    numbers_words,
    quantity_words,
    side_words,
    verdict_words,
)

_COUNTS = ("clean_mornings", "clean_runs", "full_sessions", "level_passed", "days_in_stage")
"""Checks, besides those named "at least", whose first number counts up to the one needed."""


def short_words(result: CriterionResult) -> str:
    """Return what a criterion asks for in few words; its own sentence where none fit."""
    words = _SHORT.get(result.criterion.check)
    return result.criterion.sentence if words is None else words(result)


def _needed(result: CriterionResult, parameter: str) -> str:
    needed = result.needed
    if needed is None:
        return str(result.criterion.parameters.get(parameter, ""))
    return number_words(needed)


def _bent(result: CriterionResult, usual: Knee = Knee.STRAIGHT) -> bool:
    return result.criterion.parameters.get("knee", usual) == Knee.BENT


def _raises(result: CriterionResult) -> str:
    message = _("{needed} raises, knee straight")
    if _bent(result):
        message = _("{needed} raises, knee bent")
    return message.format(needed=_needed(result, "repetitions"))


def _target(result: CriterionResult) -> str:
    if _bent(result):
        return _("Raises to the own target, knee bent")
    return _("Raises to the own target, knee straight")


def _raises_apart(result: CriterionResult) -> str:
    message = _("Raises, knee straight, legs within {percent} %")
    if _bent(result):
        message = _("Raises, knee bent, legs within {percent} %")
    return message.format(percent=_needed(result, "percent"))


def _weight(result: CriterionResult) -> str:
    message = _("Raise with weight, knee straight, within {percent} %")
    if _bent(result, usual=Knee.BENT):
        message = _("Raise with weight, knee bent, within {percent} %")
    return message.format(percent=_needed(result, "percent"))


def _hop_times(result: CriterionResult) -> str:
    message = _("Hop times, legs within {percent} %")
    return message.format(percent=_needed(result, "percent"))


def _jump(result: CriterionResult) -> str:
    message = _("Jump height, legs within {percent} %")
    return message.format(percent=_needed(result, "percent"))


def _to_wall(result: CriterionResult) -> str:
    message = _("Knee to wall, legs within {percent} %")
    return message.format(percent=_needed(result, "percent"))


def _hops(result: CriterionResult) -> str:
    return _("{needed} one-leg hops").format(needed=_needed(result, "hops"))


def _symptom(result: CriterionResult) -> str:
    return _("Symptom {most} at most").format(most=_needed(result, "score"))


def _sessions(result: CriterionResult) -> str:
    kind = result.criterion.parameters.get("kind")
    if _needed(result, "sessions") == "1":
        return result.criterion.sentence
    message = {
        SessionKind.REHAB: _("{needed} clean rehab sessions in a row"),
        SessionKind.TEAM_WITH_LIMITS: _("{needed} clean team sessions with limits in a row"),
        SessionKind.TEAM_FULL: _("{needed} clean full team sessions in a row"),
    }[SessionKind(str(kind))]
    return message.format(needed=_needed(result, "sessions"))


def _full(result: CriterionResult) -> str:
    message = _("{needed} clean full team sessions in a row")
    return message.format(needed=_needed(result, "sessions"))


def _mornings(result: CriterionResult) -> str:
    message = _("{needed} clean mornings in a row")
    return message.format(needed=_needed(result, "mornings"))


def _runs(result: CriterionResult) -> str:
    return _("{needed} days with a clean run").format(needed=_needed(result, "runs"))


def _speed(result: CriterionResult) -> str:
    days = int(result.criterion.parameters.get("days", 1))
    message = _("Run over {percent} % of own speed")
    if days > 1:
        message = _("Runs over {percent} % of own speed on {days} days")
    return message.format(percent=_needed(result, "percent"), days=days)


def _level(result: CriterionResult) -> str:
    """Return the sentence up to its first bracket or comma: it names the exercise."""
    return re.split(r"\s*[(,;]", result.criterion.sentence, maxsplit=1)[0]


def _seen(result: CriterionResult) -> str:
    return observation_name(str(result.criterion.parameters["what"]))


_SHORT: Mapping[str, Callable[[CriterionResult], str]] = {
    "observed": _seen,
    "raises_at_least": _raises,
    "raises_to_target": _target,
    "raises_within": _raises_apart,
    "loaded_raises_within": _weight,
    "hops_at_least": _hops,
    "reactive_within": _hop_times,
    "jump_within": _jump,
    "knee_to_wall_within": _to_wall,
    "symptom_at_most": _symptom,
    "clean_mornings": _mornings,
    "clean_runs": _runs,
    "speed_over": _speed,
    "sessions_at_least": _sessions,
    "full_sessions": _full,
    "level_passed": _level,
}


def standing_words(result: CriterionResult) -> str:
    """Return how a criterion stands: the numbers that fall short, and their error."""
    told = [*_decisive(result)]
    if result.verdict is Verdict.NEVER_TESTED or not told:
        return verdict_words(result.verdict)
    errors = [evidence for evidence in result.evidence if evidence.error is not None]
    if errors:
        widest = max(errors, key=lambda evidence: evidence.error or 0)
        error = quantity_words(widest.error or 0, widest.unit if widest.unit == "%" else "")
        told.append(_("error of the test {error}").format(error=error))
    numbers = "; ".join(told)
    if result.verdict is Verdict.DUE_AGAIN:
        return _("due again: {numbers}").format(numbers=numbers)
    return numbers


def open_words(result: CriterionResult) -> str:
    """Return how a criterion stands; where no number falls short, also what holds it."""
    plain = result.met or any(_short_of(result))
    said = (standing_words(result), "" if plain else result.remark)
    return " · ".join(part for part in said if part)


def _decisive(result: CriterionResult) -> Iterator[str]:
    """Yield the numbers a count fails by; of a comparison the first, the difference."""
    if result.criterion.check == "observed":
        for seen in result.evidence:
            yield _seen_words(seen, result.verdict)
        return
    level = result.criterion.check == "level_passed"
    short = [_counted(seen, needed, level=level) for seen, needed in _short_of(result)]
    yield from short or _first(result)


def _seen_words(seen: Evidence, verdict: Verdict) -> str:
    message = _("not so on {day}")
    if seen.value:
        message = _("last seen so on {day}")
        if verdict is Verdict.NOT_MET:
            message = _("seen so on {day}, but it does not count")
    return message.format(day=day_words(seen.on))


def _first(result: CriterionResult) -> Iterator[str]:
    """Yield the first number, a share without its name: the criterion has it."""
    for evidence in result.evidence[:1]:
        if evidence.unit == "%" and evidence.value is not None:
            day = day_words(evidence.on)
            apart = result.criterion.check.endswith("_within")
            said = _("{value} % apart, {day}") if apart else _("{value} %, {day}")
            yield said.format(value=number_words(evidence.value), day=day)
        else:
            yield numbers_words(result)[0]


def _short_of(result: CriterionResult) -> Iterator[tuple[Evidence, float]]:
    """Yield the numbers that lie under the count asked for, each with that count."""
    for evidence, needed in _against(result):
        if evidence.value is not None and evidence.value < needed:
            yield evidence, needed


def _against(result: CriterionResult) -> Iterator[tuple[Evidence, float]]:
    """Yield each count with the number it is held against: one for all, or its leg's own."""
    check, needed = result.criterion.check, result.needed
    if needed is not None and check in _COUNTS:
        yield from ((evidence, needed) for evidence in result.evidence[:1])
    elif needed is not None and check.endswith("_at_least"):
        yield from ((evidence, needed) for evidence in result.evidence)
    elif needed is None:
        targets = {e.side: e.value for e in result.evidence if not e.test_id}
        for evidence in result.evidence:
            target = targets.get(evidence.side)
            if evidence.test_id and target is not None:
                yield evidence, target


def _counted(evidence: Evidence, needed: float, *, level: bool) -> str:
    fields = {
        "value": number_words(evidence.value or 0),
        "needed": number_words(needed),
        "day": day_words(evidence.on),
        "side": side_words(evidence.side) if evidence.side else "",
    }
    if level:
        return _("level {value} of {needed}, {day}").format(**fields)
    if fields["side"]:
        return _("{value} of {needed}, {side}, {day}").format(**fields)
    return _("{value} of {needed}, {day}").format(**fields)
