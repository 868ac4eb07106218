"""What the cells and the opened part of a row say."""

from dataclasses import dataclass

from teamrehab.desktop.entry.safety_questions import meaning_words, question_words
from teamrehab.desktop.evening.row_values import check_of, why_questions
from teamrehab.desktop.evening.typed import (
    MAIN,
    QUESTIONS,
    Cell,
    Tonight,
    TypedExercise,
    TypedRow,
)
from teamrehab.domain.injuries import Side, Urgency
from teamrehab.domain.measures import Done, Missed, SessionKind
from teamrehab.domain.plans import PlannedExercise
from teamrehab.domain.safety import Answered, answered
from teamrehab.language import _
from teamrehab.reports.wording_evening import due_sentence

_NOT_ASKED = "-"
"""Typed, and shown, where nobody asked."""


@dataclass(frozen=True, slots=True)
class Told:
    """One line under a row; ``now``: the next key is for it, ``alarm``: it can hurt."""

    words: str
    now: bool = False
    alarm: bool = False


def done_words(row: TypedRow) -> str:
    """Return how much was done, or why nothing was."""
    if row.missed is not None:
        return missed_words(row.missed)
    if row.done is None:
        return ""
    return {
        Done.AS_PLANNED: _("as planned"),
        Done.PARTLY: _("partly"),
        Done.MORE: _("more"),
    }[row.done]


def missed_words(reason: Missed) -> str:
    """Return why a session was not done."""
    return {
        Missed.NOT_SEEN: _("not seen"),
        Missed.SYMPTOM: _("not: symptom"),
        Missed.ILL: _("not: ill"),
        Missed.AWAY: _("not: away"),
        Missed.STAFF: _("not: staff"),
        Missed.ATHLETE: _("not: athlete"),
        Missed.OTHER: _("not: other"),
    }[reason]


def symptom_words(row: TypedRow) -> str:
    """Return the symptom as it was typed: "3 t"."""
    if row.symptom is None:
        return _NOT_ASKED if Cell.SYMPTOM in row.not_asked else ""
    return f"{row.symptom} {row.feeling.value}" if row.feeling else str(row.symptom)


def effort_words(row: TypedRow) -> str:
    """Return the effort as it was typed."""
    asked = Cell.EFFORT not in row.not_asked
    return number_words(row.effort) if asked else _NOT_ASKED


def number_words(value: int | None) -> str:
    """Return a number, "" where nobody typed one."""
    return "" if value is None else str(value)


def mark_words(row: TypedRow) -> str:
    """Return what else is typed, in short words."""
    found = (
        _("limp") if row.limp else "",
        _("no limp") if row.limp is False else "",
        _("painkiller") if row.painkiller else "",
        _("no painkiller") if row.painkiller is False else "",
        kind_words(row.kind) if row.kind is not None else "",
        _("tests") if row.tests else "",
        _("note") if row.note else "",
        row.words,
    )
    return ", ".join(words for words in found if words)


def beneath_cells(row: TypedRow, tonight: Tonight) -> str:
    """Return what else is typed, and in words that are no answer what is due."""
    return "; ".join(part for part in (mark_words(row), due_sentence(tonight.line.due)) if part)


def coach_words(tonight: Tonight) -> str:
    """Return what the coach still reads of an athlete who is stopped, and the key for it."""
    return _("Coach reads: {words}. Ctrl+B").format(words=tonight.coach)


def typed_words(row: TypedRow) -> str:
    """Return a row in sentences: what was done, felt and noted."""
    found = (
        (_("Done: {words}."), done_words(row)),
        (_("Symptom {words}."), symptom_words(row)),
        (_("Effort {words}."), effort_words(row)),
        (_("Minutes {words}."), number_words(row.minutes)),
        (_("Also {words}."), mark_words(row)),
    )
    return " ".join(sentence.format(words=words) for sentence, words in found if words)


def kind_words(kind: SessionKind) -> str:
    """Return where an athlete trained, in short words."""
    return {
        SessionKind.REHAB: _("rehab"),
        SessionKind.TEAM_WITH_LIMITS: _("team with limits"),
        SessionKind.TEAM_FULL: _("full team"),
    }[kind]


def large_side(side: Side) -> str:
    """Return the side as it stands in the row being typed."""
    return {
        Side.LEFT: _("LEFT"),
        Side.RIGHT: _("RIGHT"),
        Side.BOTH: _("BOTH"),
        Side.NOT_APPLICABLE: "",
    }[side]


def plan_whole(tonight: Tonight) -> str:
    """Return what the plan's column is for: the plan, or why there is none."""
    return tonight.line.stopped or tonight.line.plan_words


def opened(row: TypedRow, tonight: Tonight, *, cut: bool) -> tuple[Told, ...]:
    """Return the lines under a row in use: what the cursor has opened, or the cells lack.

    ``cut``: the plan has no room in its column and stands here instead.
    """
    if row.cell is Cell.REASON:
        return _reasons()
    if row.cell is Cell.WORDS:
        return (Told(_("Not done, because: {words}_").format(words=row.words), now=True),)
    if row.cell is Cell.NOTE:
        return (Told(_("Note: {words}_").format(words=row.note), now=True),)
    if row.cell is Cell.EXERCISES:
        return _exercises(row, tonight)
    if row.cell is Cell.SAFETY:
        return _questions(row, tonight)
    shown = _beneath(row, tonight, cut=cut) if row.cell in MAIN else (_noted(row),)
    return tuple(Told(words) for words in shown if words)


def _beneath(row: TypedRow, tonight: Tonight, *, cut: bool) -> tuple[str, ...]:
    """Return the plan if it was cut, what is left out of it and why, and the note."""
    planned = ""
    if cut:
        planned = tonight.line.stopped or _("Plan: {plan}").format(plan=tonight.line.plan_words)
    return planned, " ".join(tonight.plan.notes), _noted(row)


def _noted(row: TypedRow) -> str:
    return _("Note: {words}").format(words=row.note) if row.note else ""


def _reasons() -> tuple[Told, ...]:
    words = _(
        "Why?   S symptom   I ill   A away   D decided by staff   T decided by the athlete"
        "   O other"
    )
    return (Told(words, now=True),)


def _exercises(row: TypedRow, tonight: Tonight) -> tuple[Told, ...]:
    pairs = enumerate(zip(tonight.exercises, row.exercises, strict=False))
    lines = [
        Told(_exercise(planned, seen, tonight), now=number == row.line)
        for number, (planned, seen) in pairs
    ]
    faults = "   ".join(f"{n} {fault.name}" for n, fault in enumerate(tonight.faults, start=1))
    if not faults:
        return tuple(lines)
    said = _("Faults: {faults}").format(faults=faults)
    return (*lines, Told(said, now=row.in_faults))


def _exercise(planned: PlannedExercise, seen: TypedExercise, tonight: Tonight) -> str:
    names = {fault.key: fault.name for fault in tonight.faults}
    faults = ", ".join(names.get(key, key) for key in seen.faults)
    fields = {
        "exercise": planned.ladder,
        "name": planned.name,
        "planned": planned.sets,
        "dose": planned.dose,
        "sets": "_" if seen.sets is None else seen.sets,
        "faults": faults,
    }
    words = _("{sets} of {planned} x {dose}   {exercise}")
    if planned.name:
        words = _("{sets} of {planned} x {dose}   {exercise}: {name}")
    said = words.format(**fields)
    return _("{work}   - {faults}").format(work=said, faults=faults) if faults else said


def _questions(row: TypedRow, tonight: Tonight) -> tuple[Told, ...]:
    """Return why they are asked, the questions with their answers, and what those mean."""
    reasons = Told(" ".join(why_questions(row, tonight)), alarm=True)
    answers = [_("yes") if yes else _("no") for yes in row.safety]
    answers += [_("Y or N?"), *[""] * QUESTIONS]
    lines = [
        Told(
            _("{question}  {answer}").format(question=question, answer=answers[number]),
            now=number == len(row.safety),
        )
        for number, question in enumerate(question_words())
    ]
    check = check_of(row, tonight, "")
    return (reasons, *lines) if check is None else (reasons, *lines, _meaning(answered(check)))


def _meaning(found: Answered) -> Told:
    if found.urgency is Urgency.EMERGENCY:
        follows = _("Enter saves and raises a red flag: emergency now.")
    elif found.urgency is Urgency.SAME_DAY:
        follows = _("Enter saves and raises a red flag: doctor the same day.")
    else:
        follows = _("Enter saves.")
    words = _("{meaning} {follows}").format(meaning=meaning_words(found), follows=follows)
    return Told(words, now=True, alarm=True)
