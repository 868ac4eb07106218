"""The next session in words: the work at its levels, what goes on beside it, the symptom."""

from datetime import date

from teamrehab.domain.guidance import Exercise, KindOfWork, SymptomRule
from teamrehab.domain.ladders import present_stage
from teamrehab.domain.measures import SessionKind
from teamrehab.domain.plans import PlannedExercise
from teamrehab.language import _
from teamrehab.reports.next_steps import NextSteps
from teamrehab.reports.wording import day_words
from teamrehab.reports.wording_evening import kind_words
from teamrehab.reports.wording_protocol import work_words


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
    many = {ladder.key: len(ladder.levels) for ladder in steps.protocol.ladders}
    return tuple(
        (_named(one, many.get(one.exercise, one.level)), _dosed(one))
        for one in steps.plan.exercises
    )


def _named(one: PlannedExercise, levels: int) -> str:
    if levels == 1:
        return one.ladder
    return _("{ladder}, level {number} of {levels}").format(
        ladder=one.ladder, number=one.level, levels=levels
    )


def _dosed(one: PlannedExercise) -> str:
    return _("{what}: {sets} x {dose}").format(what=one.name, sets=one.sets, dose=one.dose)


def beside_words(steps: NextSteps) -> str:
    """Return the exercises without levels that go on beside the ladders; "" without any."""
    if steps.plan is None or steps.protocol is None:
        return ""
    stage = present_stage(steps.history, steps.protocol)
    own = [
        one
        for one in steps.protocol.guidance.exercises
        if one.stage <= stage and (one.until is None or stage <= one.until)
    ]
    if not own:
        return ""
    return _("Beside it: {exercises}.").format(exercises="; ".join(map(_plain, own)))


def _plain(one: Exercise) -> str:
    return _("{name} {sets} x {dose}").format(name=one.name, sets=one.sets, dose=one.dose)


def symptom_line(steps: NextSteps) -> str:
    """Return how much symptom the work of the next session allows; "" without a plan."""
    if steps.plan is None or steps.protocol is None:
        return ""
    rules = _rules(steps)
    if not rules:
        return ""
    said = _("Symptom at most: {rules}. Sharp or building symptom, or a limp: stop that day.")
    return said.format(rules="; ".join(rules))


def _rules(steps: NextSteps) -> list[str]:
    """Return the rule of each kind of work that is planned, of several the latest stage's."""
    protocol, plan = steps.protocol, steps.plan
    if protocol is None or plan is None:
        return []
    stage = present_stage(steps.history, protocol)
    planned = {one.exercise for one in plan.exercises}
    kinds = {ladder.work for ladder in protocol.ladders if ladder.key in planned}
    rules: dict[KindOfWork, SymptomRule] = {}
    for rule in sorted(protocol.guidance.symptom_rules, key=lambda each: each.stage):
        team = rule.work is KindOfWork.TEAM and plan.kind is not SessionKind.REHAB
        if rule.stage <= stage and (rule.work in kinds or team):
            rules[rule.work] = rule
    return [_rule(rule) for rule in rules.values()]


def _rule(rule: SymptomRule) -> str:
    message = _("{work} {most}")
    if rule.settles:
        message = _("{work} {most}, back where it was by the next morning")
    return message.format(work=work_words(rule.work), most=rule.most)


def no_plan_words(steps: NextSteps) -> str:
    """Return what is said where no session is planned by a protocol; "" where one is."""
    if steps.plan is not None or steps.stops:
        return ""
    if steps.rests:
        return _("Ill, and no training is stated: rest until a clinician states otherwise.")
    return _("Nothing is planned here: what is done is agreed with a clinician.")
