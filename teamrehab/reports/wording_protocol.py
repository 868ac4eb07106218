"""Words for the parts of a protocol, one part a sentence or two."""

from collections.abc import Iterable, Iterator, Mapping

from teamrehab.domain.guidance import (
    Exercise,
    FullSessions,
    Informs,
    KindOfWork,
    SymptomRule,
)
from teamrehab.domain.injuries import Urgency
from teamrehab.domain.protocol import (
    Criterion,
    IntakePattern,
    Ladder,
    Level,
    Passed,
    Protocol,
)
from teamrehab.language import _, counted


def work_words(work: KindOfWork) -> str:
    """Return how a kind of work reads."""
    return {
        KindOfWork.SLOW: _("Slow gym work"),
        KindOfWork.QUICK: _("Hops and jumps"),
        KindOfWork.RUNNING: _("Running"),
        KindOfWork.TEAM: _("Team training"),
    }[work]


def urgency_heading(urgency: Urgency) -> str:
    """Return the heading over the red flags of one urgency."""
    if urgency is Urgency.EMERGENCY:
        return _("Red flags: emergency care now")
    return _("Red flags: a doctor the same day")


def criterion_words(criterion: Criterion) -> str:
    """Return a criterion with the symptom it allows and the range that is common.

    A sentence that names the symptom itself ("at symptom 0-1") is not told it again.
    """
    said = [_("{sentence}.").format(sentence=criterion.sentence.rstrip("."))]
    symptom = criterion.parameters.get("symptom")
    if symptom is not None and f"0-{symptom}" not in criterion.sentence:
        said.append(_("Symptom {most} at most.").format(most=symptom))
    if criterion.range:
        said.append(_("Common range {range}.").format(range=criterion.range))
    return " ".join(said)


def level_words(level: Level, ladder: Ladder, protocol: Protocol) -> str:
    """Return a step of a ladder: what, how much, and what comes before it."""
    said = [_dose_words(level.name, level.sets, level.dose)]
    if level.stage is not None and level.stage > ladder.stage:
        name = protocol.stages[level.stage - 1].name
        said.append(_("From {stage} on.").format(stage=name))
    said.extend(passed_words(level.after, protocol))
    return " ".join(said)


def passed_words(after: Iterable[Passed], protocol: Protocol) -> Iterator[str]:
    """Yield which levels of ladders come first."""
    names = {each.key: each.name for each in protocol.ladders}
    for passed in after:
        words = _("After {ladder}, level {number}, was passed.")
        ladder = names.get(passed.ladder, passed.ladder)
        yield words.format(ladder=ladder, number=passed.level)


def ladder_rule(ladder: Ladder, protocol: Protocol) -> str:
    """Return when a ladder is worked at, and how much symptom it allows."""
    period = period_words(ladder.stage, ladder.until, protocol)
    said = _("{period} Symptom {most} at most.")
    return said.format(period=period, most=ladder.symptom)


def exercise_words(exercise: Exercise, protocol: Protocol) -> str:
    """Return a plain exercise: what, how much, when."""
    dose = _dose_words(exercise.name, exercise.sets, exercise.dose)
    period = period_words(exercise.stage, exercise.until, protocol)
    return _("{dose} {period}").format(dose=dose, period=period)


def period_words(stage: int, until: int | None, protocol: Protocol) -> str:
    """Return from which stage to which, as a sentence."""
    names = [each.name for each in protocol.stages]
    first, last = names[stage - 1], names[-1] if until is None else names[until - 1]
    if until == stage:
        return _("In {stage} only.").format(stage=first)
    if until is None:
        return _("From {stage} on.").format(stage=first)
    return _("From {first} to {last}.").format(first=first, last=last)


def rule_words(rule: SymptomRule, protocol: Protocol) -> str:
    """Return a symptom rule as a sentence."""
    said = [
        _("{work}: symptom {most} at most, from {stage} on.").format(
            work=work_words(rule.work),
            most=rule.most,
            stage=protocol.stages[rule.stage - 1].name,
        )
    ]
    if rule.settles:
        said.append(_("Back where it was by the next morning."))
    return " ".join(said)


def full_sessions_words(row: FullSessions) -> str:
    """Return how many full sessions come before a sign-off after so many days out."""
    said = [
        counted(
            "From {{days}} days out on: {count} full session.",
            "From {{days}} days out on: {count} full sessions.",
            row.sessions,
        ).format(days=row.from_day)
    ]
    if row.better is not None:
        said.append(_("Better {sessions}.").format(sessions=row.better))
    if row.limited_minutes:
        said.append(_("Limited minutes in the first match."))
    return " ".join(said)


def informs_words(row: Informs) -> str:
    """Return in which phases a test says something."""
    phases = ", ".join(str(phase) for phase in row.phases)
    said = _("{test}: phase {phases}.")
    return said.format(test=test_words(row.test), phases=phases)


def test_words(test: str) -> str:
    """Return how a kind of test reads; ``test`` is its name in a protocol file."""
    names = {
        "heel_raise_test": _("Heel raises"),
        "hop_test": _("Hops in place"),
        "function_check": _("What the tester sees"),
        "run_test": _("Fastest run"),
        "jump_test": _("Single-leg jump"),
        "knee_to_wall_test": _("Knee to wall"),
        "loaded_raise_test": _("Raises with weight"),
    }
    return names.get(test, test)


def finding_words(finding: str) -> str:
    """Return how a question of the examination reads in a pattern."""
    names = {
        "onset": _("Onset"),
        "activity": _("While doing"),
        "character": _("Felt as"),
        "resisted_straight": _("Against the hand, knee straight"),
        "resisted_bent": _("Against the hand, knee bent"),
        "stretch_straight": _("Stretch brings it, knee straight"),
        "stretch_bent": _("Stretch brings it, knee bent"),
        "walking": _("Walking"),
        "stairs": _("Stairs"),
        "more_load": _("More load than usual before"),
        "little_rest": _("Little rest before"),
        "new_surface_or_shoe": _("New surface or shoe before"),
    }
    return names.get(finding, finding)


def pattern_words(pattern: IntakePattern, muscles: Mapping[str, str]) -> str:
    """Return an intake pattern; ``muscles`` are the names of the catalogue by key."""
    said = _("{finding}: {value} points to {muscle} (weight {weight}).")
    return said.format(
        finding=finding_words(pattern.finding),
        value=pattern.value,
        muscle=muscles.get(pattern.muscle, pattern.muscle),
        weight=pattern.weight,
    )


def _dose_words(name: str, sets: int, dose: str) -> str:
    return _("{name}: {sets} x {dose}.").format(name=name, sets=sets, dose=dose)
