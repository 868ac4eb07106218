"""The next session in words: the work at its levels, what goes on beside it, the symptom."""

import re
from datetime import date

from teamrehab.domain.guidance import Exercise, KindOfWork, SymptomRule
from teamrehab.domain.ladders import present_stage
from teamrehab.domain.outlooks import LadderOutlook
from teamrehab.domain.plans import Plan, PlannedExercise
from teamrehab.domain.protocol import Ladder
from teamrehab.domain.symptom_rules import allowed, allowed_in_team, rule_for
from teamrehab.language import _
from teamrehab.reports.next_steps import NextSteps
from teamrehab.reports.wording import day_words
from teamrehab.reports.wording_evening import kind_words
from teamrehab.reports.wording_protocol import work_words

_COUNT = re.compile(r".*?\d+(?:-\d+)?(?: (?:s|min|m|%)\b)?")
"""A dose up to its first count and its unit: "up to 60 s", "15", "6-10"."""


def session_title(steps: NextSteps, today: date) -> str:
    """Return the heading of the next session with its day and minutes."""
    if steps.stops:
        return _("Next session: none until this is lifted")
    if steps.rests:
        return _("Next session: none")
    day = _("today") if steps.session_on == today else day_words(steps.session_on)
    message = _("Next session, {day}")
    if steps.session_on > today:
        message = _("Next session, {day} or later")
    title = message.format(day=day)
    plan = steps.plan
    if plan is None:
        return title
    kind = kind_words(plan.kind)
    if plan.minutes is None:
        return _("{title}: {kind}").format(title=title, kind=kind)
    timed = _("{title}: {kind}, {minutes} min")
    return timed.format(title=title, kind=kind, minutes=plan.minutes)


def session_lines(steps: NextSteps) -> tuple[tuple[str, str], ...]:
    """Return the work of the next session: the exercise with its level, and what is done."""
    if steps.plan is None or steps.protocol is None:
        return ()
    many = {ladder.key for ladder in steps.protocol.ladders if len(ladder.levels) > 1}
    work = tuple(
        (_named(one) if one.exercise in many else one.ladder, _dosed(one))
        for one in steps.plan.exercises
    )
    return (*work, *(_run(one) for one in _runs_of(steps.plan)))


def _runs_of(plan: Plan) -> tuple[Exercise, ...]:
    return tuple(one for one in plan.beside if one.work is KindOfWork.RUNNING)


def _run(one: Exercise) -> tuple[str, str]:
    """Return a run of the session: it loads as a ladder does, and is asked for like one."""
    said = _("{name}: {dose}").format(name=one.name, dose=one.dose)
    return _("Run"), said


def _named(one: PlannedExercise) -> str:
    return _("{ladder}, level {number}").format(ladder=one.ladder, number=one.level)


def _dosed(one: PlannedExercise) -> str:
    return _("{what}: {sets} x {dose}").format(what=one.name, sets=one.sets, dose=one.dose)


def plain_words(steps: NextSteps) -> str:
    """Return the exercises without levels with their doses; "" without any."""
    plan = steps.plan
    own = () if plan is None else [one for one in plan.beside if one not in _runs_of(plan)]
    if not own:
        return ""
    exercises = "; ".join(map(_plain, own))
    return _("Beside the next session, without levels: {exercises}.").format(
        exercises=exercises
    )


def _plain(one: Exercise) -> str:
    found = _COUNT.match(one.dose)
    dose = found[0] if found else one.dose
    return _("{name} {sets} x {dose}").format(name=one.name, sets=one.sets, dose=dose)


def plan_notes(steps: NextSteps) -> str:
    """Return what is left out of the next session and why; "" where nothing is."""
    return "" if steps.plan is None else " ".join(steps.plan.notes)


def symptom_line(steps: NextSteps) -> str:
    """Return how much symptom the work of the next session allows; "" without a plan."""
    rules = _rules(steps)
    if not rules:
        return ""
    said = _("Symptom at most: {rules}. Sharp, building, or a limp: stop.")
    return said.format(rules="; ".join(rules))


def _rules(steps: NextSteps) -> list[str]:
    """Return what each kind of work that is planned allows in the present stage."""
    protocol, plan = steps.protocol, steps.plan
    if protocol is None or plan is None:
        return []
    stage = present_stage(steps.history, protocol)
    planned = {one.exercise for one in plan.exercises}
    found: dict[tuple[KindOfWork | None, int], list[Ladder]] = {}
    for ladder in (one for one in protocol.ladders if one.key in planned):
        most = allowed(protocol, ladder, stage)
        found.setdefault((ladder.work, most), []).append(ladder)
    told = []
    for (work, most), ladders in found.items():
        alone = [kind for kind, _most in found].count(work) == 1
        named = ", ".join(ladder.name for ladder in ladders)
        name = work_words(work) if work is not None and alone else named
        told.append(_rule(name, most, rule_for(protocol, work, stage)))
    team = allowed_in_team(protocol, plan.kind, stage)
    if team is not None:
        rule = rule_for(protocol, KindOfWork.TEAM, stage)
        told.append(_rule(work_words(KindOfWork.TEAM), team, rule))
    return told


def _rule(name: str, most: int, rule: SymptomRule | None) -> str:
    message = _("{work} {most}")
    if rule is not None and rule.settles:
        message = _("{work} {most}, settled by the morning")
    return message.format(work=name, most=most)


def no_plan_words(steps: NextSteps) -> str:
    """Return what is said where no session is planned by a protocol; "" where one is."""
    if steps.plan is not None or steps.stops:
        return ""
    if steps.rests:
        return _("Ill, and no training is stated: rest until a clinician states otherwise.")
    return _("Nothing is planned here: what is done is agreed with a clinician.")


def outlook_lines(steps: NextSteps, today: date) -> tuple[tuple[str, str], ...]:
    """Return what has to come true to move up each ladder that goes on, and from when on."""
    going_on = (one for one in steps.ladders if one.next_name)
    return tuple((_next_level(one), _needs(one, today)) for one in going_on)


def _next_level(one: LadderOutlook) -> str:
    return _("{ladder}, to level {number}").format(ladder=one.ladder.name, number=one.level + 1)


def _needs(one: LadderOutlook, today: date) -> str:
    needs = " ".join(one.needs)
    if one.earliest is None or one.earliest == today:
        return needs
    message = _("{needs} Not before {day}.")
    return message.format(needs=needs, day=day_words(one.earliest))
