"""What comes next, in words: the answer and why, what is missing and from when on."""

from collections.abc import Mapping
from datetime import date

from teamrehab.domain.decision import CriterionResult, Decision, Verdict
from teamrehab.domain.earliest import SINCE_OPENED
from teamrehab.domain.injuries import Nature
from teamrehab.domain.protocol import Protocol
from teamrehab.language import _, counted
from teamrehab.reports.next_steps import Answer, Lift, NextSteps
from teamrehab.reports.open_gates import OpenGate
from teamrehab.reports.overriding import Overridden
from teamrehab.reports.wording import day_words
from teamrehab.reports.wording_criteria import open_words, short_words


def answer_words(answer: Answer) -> str:
    """Return the answer in a word or two."""
    return {
        Answer.MOVE_UP: _("Move up"),
        Answer.STAY: _("Stay"),
        Answer.STEP_BACK: _("Step back"),
        Answer.STOP: _("Stop and review"),
        Answer.SIGN_OFF: _("Ready for sign-off"),
        Answer.UNGUIDED: _("No proposal"),
    }[answer]


def answer_sentences(steps: NextSteps) -> tuple[str, ...]:
    """Return why, with the numbers that decide; stops word by word."""
    if steps.stops:
        return steps.stops
    if steps.decision is None:
        return (_unguided(steps),)
    said = {
        Answer.MOVE_UP: _(
            "All that {next} asks for is met: it can be opened, and is provisional until the"
            " next morning."
        ),
        Answer.SIGN_OFF: _("All that sign-off asks for is met: a named person may sign."),
        Answer.STEP_BACK: _(
            "The leg answered {stage} badly: {why} Consider going back a stage."
        ),
    }.get(steps.answer)
    if said is None:
        return _stay(steps.decision)
    decision, why = steps.decision, " ".join(steps.answered_badly)
    return (said.format(next=decision.next_name, stage=decision.stage_name, why=why),)


def _unguided(steps: NextSteps) -> str:
    case = steps.history.case
    if case.head_injury:
        return _("Head injury: a doctor decides about every step (common practice).")
    if case.nature is Nature.ILLNESS:
        return _("Illness: no stages are counted; a clinician decides about every step.")
    if (chosen := steps.history.protocol) is not None:
        said = _(
            "The case follows the protocol {key}, version {version}, which is not at hand or"
            " cannot be read here: nothing is proposed and nothing is counted. Take the file in"
            " again, or choose another protocol."
        )
        return said.format(key=chosen.protocol, version=chosen.version)
    return _("The case follows no protocol, so nothing is proposed and nothing is counted.")


def _stay(decision: Decision) -> tuple[str, ...]:
    held = decision.held
    if not decision.missing:
        return held or (_("The protocol asks for nothing here: you decide."),)
    untested = all(one.verdict is Verdict.NEVER_TESTED for one in decision.criteria)
    if untested:
        return (_untested(decision), *held)
    said = _open_words(decision, len(decision.missing))
    return (_("{open} {first}").format(open=said, first=_first_words(decision.missing)), *held)


def _open_words(decision: Decision, count: int) -> str:
    """Return how many criteria of the next gate are open."""
    message = counted(
        "{count} of the {{asked}} criteria for {{next}} is open.",
        "{count} of the {{asked}} criteria for {{next}} are open.",
        count,
    )
    if not decision.next_name:
        message = counted(
            "{count} of the {{asked}} criteria for sign-off is open.",
            "{count} of the {{asked}} criteria for sign-off are open.",
            count,
        )
    return message.format(asked=len(decision.criteria), next=decision.next_name)


def _untested(decision: Decision) -> str:
    said = _("Nothing that {next} asks for has been tested yet, so nothing speaks for it.")
    if not decision.next_name:
        said = _("Nothing that sign-off asks for has been tested yet.")
    return said.format(next=decision.next_name)


def _first_words(missing: tuple[CriterionResult, ...]) -> str:
    """Return what says most: a number that falls short before what is not known."""
    first = min(missing, key=lambda result: result.verdict is not Verdict.NOT_MET)
    said = _("First: {criterion}; {standing}").format(
        criterion=short_words(first), standing=open_words(first)
    )
    return sentence(said)


def stage_line(decision: Decision) -> str:
    """Return where the case stands: "Stage 3 of 5: Hop and jump"."""
    return _("Stage {n} of {m}: {stage}").format(
        n=decision.stage, m=decision.stages, stage=decision.stage_name
    )


def who_decides(decision: Decision | None) -> str:
    """Return that a clinician decides: it stands beside every answer."""
    if decision is None:
        return _("The clinician decides.")
    return _("The program proposes; the clinician decides.")


def notes_words(steps: NextSteps, names: Mapping[str, str]) -> str:
    """Return in one paragraph what is to be minded, and who decided above a proposal."""
    if steps.protocol is None:
        return ""
    said = [note for note in steps.notes if note != who_decides(steps.decision)]
    for override in steps.overrides:
        place = next((n for n, note in enumerate(said) if _speaks_of(note, override)), None)
        if place is None:
            said.insert(0, _override(override, steps.protocol, names))
        else:
            said.insert(place + 1, _decided_by(names.get(override.author, "")))
    if steps.left_open:
        left = "; ".join(short_words(result) for result in steps.left_open)
        said.insert(0, _("Still open from before: {criteria}").format(criteria=left))
    return " ".join(sentence(words) for words in said if words)


def _speaks_of(note: str, override: Overridden) -> bool:
    """Return whether a caution says already why the stage was opened."""
    return not override.ladder and bool(override.why) and override.why.rstrip(".") in note


def _decided_by(who: str) -> str:
    return _("Decided by {who}.").format(who=who) if who else ""


def _override(said: Overridden, protocol: Protocol, names: Mapping[str, str]) -> str:
    """Return who opened what above the proposal, and why."""
    what = protocol.stages[min(said.number, len(protocol.stages)) - 1].name
    if said.ladder:
        ladders = {ladder.key: ladder.name for ladder in protocol.ladders}
        name = ladders.get(said.ladder, said.ladder)
        what = _("{ladder}, level {number}").format(ladder=name, number=said.number)
    message = _("{what} was decided against the proposal on {day}: {why}.")
    who = names.get(said.author, "")
    if who:
        message = _("{what} was decided by {who} against the proposal on {day}: {why}.")
    why = said.why.rstrip(".") or _("no reason was noted")
    return message.format(what=what, who=who, day=day_words(said.on), why=why)


def sentence(words: str) -> str:
    """Return words with a stop at their end, "" as it is."""
    ends = words.endswith((".", "!", "?"))
    return words if ends or not words else _("{words}.").format(words=words)


def lift_words(lift: Lift) -> str:
    """Return what is to be done before anything is loaded again."""
    return {
        Lift.DOCTOR: _("A doctor sees the athlete and closes the red flag by name."),
        Lift.OTHER_CASE: _("What stops the other case is settled there: choose it above."),
        Lift.EXAMINE: _(
            "The leg is examined and found fit, or a later day is noted that is calm, without"
            " a limp and without a painkiller."
        ),
    }[lift]


def missing_title(steps: NextSteps) -> str:
    """Return the heading of what is missing."""
    if steps.decision is None or not steps.running:
        return _("Missing to run")
    if not steps.decision.next_name:
        return _("Missing for sign-off")
    return _("Missing for {stage}").format(stage=steps.decision.next_name)


def earliest_words(steps: NextSteps, today: date) -> str:
    """Return when all of it could be passed at the earliest: a bound, never a promise."""
    if not steps.gates:
        return _("No criteria: a clinician decides about running and about the return.")
    if steps.earliest is None:
        return _("no earliest day while rehab is stopped")
    if not steps.missing and steps.earliest == today:
        return _("nothing")
    if steps.earliest == today:
        return _("as soon as all of it passes")
    day = day_words(steps.earliest)
    return _("not before {day}, and only if all of it passes").format(day=day)


def gate_title(gate: OpenGate, today: date) -> str:
    """Return the heading of one of several gates on the way."""
    fields = {"stage": gate.opens, "open": len(gate.open), "asked": gate.asked}
    if not gate.opens:
        return _("Sign-off ({open} of {asked} open)").format(**fields)
    if gate.earliest is None or gate.earliest == today:
        return _("{stage} ({open} of {asked} open)").format(**fields)
    message = _("{stage} ({open} of {asked} open, not before {day})")
    return message.format(day=day_words(gate.earliest), **fields)


def tested(gate: OpenGate) -> tuple[CriterionResult, ...]:
    """Return the open criteria of which something is known, those that fail first."""
    known = [one for one in gate.open if one.verdict is not Verdict.NEVER_TESTED]
    return tuple(sorted(known, key=lambda one: one.verdict is not Verdict.NOT_MET))


def untested_words(gate: OpenGate) -> str:
    """Return the open criteria of which nothing is known, in one paragraph; "" without any."""
    never = [_never(one) for one in gate.open if one.verdict is Verdict.NEVER_TESTED]
    if not never:
        return ""
    return _("Never tested: {criteria}.").format(criteria="; ".join(never))


def _never(result: CriterionResult) -> str:
    """Return a criterion of which nothing is known, with the level it waits for."""
    words = short_words(result)
    if not result.waits:
        return words
    return _("{criterion} ({after})").format(criterion=words, after=result.remark.rstrip("."))


def ahead_words(gate: OpenGate) -> str:
    """Return what is open at a gate in one paragraph, and how it stands."""
    if not gate.open:
        return _("Nothing is open there today.")
    known = [_ahead(result) for result in tested(gate)]
    said = (sentence("; ".join(known)), untested_words(gate))
    return " ".join(part for part in said if part)


def _ahead(result: CriterionResult) -> str:
    """Return a criterion of a stage that is not open yet: some count from then on only."""
    if result.criterion.check in SINCE_OPENED:
        said = _("{criterion}, counted from the day the stage before it opens")
        return said.format(criterion=result.criterion.sentence)
    message = _("{criterion}: {standing}")
    return message.format(criterion=short_words(result), standing=open_words(result))


def gate_paragraph(gate: OpenGate, today: date) -> str:
    """Return a gate further on: its heading and what is open there."""
    message = _("{title}: {open}")
    return message.format(title=gate_title(gate, today), open=ahead_words(gate))
