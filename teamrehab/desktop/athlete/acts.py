"""For each thing that can be asked of the page: the form it opens, and how that is saved."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.athlete.availability_form import AvailabilityForm
from teamrehab.desktop.athlete.away_form import AwayForm
from teamrehab.desktop.athlete.case_form import CaseForm
from teamrehab.desktop.athlete.case_line import case_words
from teamrehab.desktop.athlete.clearance_form import ClearanceForm
from teamrehab.desktop.athlete.decision_form import DecisionForm
from teamrehab.desktop.athlete.desk import Asked, Desk, Save
from teamrehab.desktop.athlete.diagnosis_form import DiagnosisForm
from teamrehab.desktop.athlete.ending_forms import CloseForm, WithdrawForm
from teamrehab.desktop.athlete.entries import entry_sentence
from teamrehab.desktop.athlete.events import Event, events_of
from teamrehab.desktop.athlete.examining import examination
from teamrehab.desktop.athlete.flag_acts import ask_for_signs, raise_flag
from teamrehab.desktop.athlete.flag_forms import CloseFlagForm
from teamrehab.desktop.athlete.move_form import MoveForm
from teamrehab.desktop.athlete.note_form import NoteForm
from teamrehab.desktop.athlete.observing import observed, session
from teamrehab.desktop.athlete.onset_forms import IllnessForm, InjuryForm
from teamrehab.desktop.athlete.portrait import Portrait
from teamrehab.desktop.entry.live_answer import LiveAnswer
from teamrehab.desktop.entry.tonight import TonightForm
from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.decision import Decision, Proposal
from teamrehab.domain.examination import Examination
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import RedFlag, Remark
from teamrehab.domain.measures import SessionEntry
from teamrehab.domain.plausibility import check
from teamrehab.language import _
from teamrehab.protocols import body_areas
from teamrehab.reports.wording import absence_words, day_and_year
from teamrehab.tasks import cases, correcting

__all__ = [
    "Asked",
    "Desk",
    "Save",
    "answer_to",
    "asked_for",
    "can_stand",
    "correction",
    "event_withdrawal",
    "flag_closing",
    "withdrawal",
]

_AFTER_ALL = "~"
"""Sorts behind every stamp a casebook gives."""


def asked_for(act: Act, desk: Desk) -> Asked:
    """Return the form for one of the page's actions."""
    return _FORMS[act](desk)


def correction(desk: Desk, fact: Standing[Any]) -> Asked:
    """Return the form that rewrites a test, a session, an examination or a note."""
    if isinstance(fact.value, Remark):
        return Asked(NoteForm(desk.occasion, fact.value), _note)
    if isinstance(fact.value, Examination):
        return examination(desk, fact.value)
    if isinstance(fact.value, SessionEntry):
        return session(desk, fact.value)
    occasion = replace(desk.occasion, case_id=fact.value.case_id)
    form = TonightForm(occasion, fact.value)
    of_this_case = occasion.case_id == desk.occasion.case_id
    return _test(desk, form) if of_this_case else Asked(form, _note)


def withdrawal(desk: Desk, fact: Standing[Any]) -> Asked:
    """Return the form that takes an entry back as entered in error."""
    form = WithdrawForm([entry_sentence(fact)], desk.portrait.athlete.name)
    return Asked(form, lambda values: lambda book: book.withdraw(fact.fact_id, why=values[0]))


def event_withdrawal(desk: Desk, event: Event) -> Asked:
    """Return the form that takes a decision back, with all that was signed along with it."""
    what = correcting.fall_together(event.history, event.fact)
    ids = {fact.fact_id for fact in what.facts}
    told = [e.sentence for e in events_of(event.history, desk.portrait) if e.fact_id in ids]
    form = WithdrawForm(told, desk.portrait.athlete.name)
    return Asked(form, lambda values: lambda book: correcting.take_back(book, what, values[0]))


def flag_closing(desk: Desk, flag: RedFlag) -> Asked:
    """Return the form in which a named doctor closes a red flag."""
    form = CloseFlagForm(desk.occasion, flag)
    return Asked(
        form, lambda values: lambda book: cases.close_red_flag(book, flag, values[0].closed_by)
    )


def answer_to(desk: Desk, typed: Sequence[Any]) -> Decision | None:
    """Return the decision as it would be if these tests were saved."""
    history = desk.portrait.history
    if history is None:
        return None
    ids = {value.test_id for value in typed}
    kept = [f for f in history.facts if getattr(f.value, "test_id", None) not in ids]
    new = [
        Standing(
            fact_id=v.test_id,
            value=v,
            author=desk.me.staff_id,
            noted_at=desk.now,
            stamp=_AFTER_ALL,  # a second test of one evening is the newer one
        )
        for v in typed
    ]
    ordered = sorted([*kept, *new], key=lambda fact: fact.value.on)
    return desk.portrait.decide(replace(history, facts=tuple(ordered)))


def can_stand(desk: Desk, typed: Sequence[Any]) -> bool:
    """Return whether nothing about what is typed is implausible."""
    today, history = desk.occasion.today, desk.portrait.history
    return not any(check(value, today, history) for value in typed)


def _note(values: tuple[Any, ...]) -> Save:
    return lambda book: book.note(*values)


def _test(desk: Desk, form: TonightForm) -> Asked:
    answers = partial(answer_to, desk), partial(can_stand, desk)
    live = LiveAnswer(form, desk.portrait.injured, *answers, caution=desk.match_day)
    if desk.portrait.history is None:  # a healthy athlete: no case that could be stopped
        return Asked(form, _note, live)
    return observed(desk, form, live)


def _tonight(desk: Desk) -> Asked:
    decision = desk.portrait.decision
    asked = [result.criterion for result in decision.missing] if decision else []
    form = TonightForm(desk.occasion, asked=asked)
    if decision is not None and decision.proposal is Proposal.STOP_AND_REVIEW:
        warning = text(" ".join(decision.cautions[:1]), Type.COMPLAINT)
        warning.setWordWrap(True)
        form.rows.insertRow(0, warning)
    return _test(desk, form)


def _availability(desk: Desk) -> Asked:
    history = desk.history
    before, stage = history.last(AvailabilityStated), desk.portrait.stage
    form = AvailabilityForm(desk.occasion, desk.now, before, stage)
    return Asked(
        form, lambda values: lambda book: cases.state_availability(book, history, values[0])
    )


def _case(desk: Desk) -> Asked:
    history = desk.history
    form = CaseForm(history, body_areas())
    return Asked(
        form, lambda values: lambda book: correcting.correct_case(book, history, values[0])
    )


def _injury(desk: Desk) -> Asked:
    earlier = [
        (h.case.case_id, _earlier_words(h, desk.portrait)) for h in desk.portrait.earlier
    ]
    return Asked(InjuryForm(desk.occasion, body_areas(), earlier), _open_case)


def _earlier_words(history: History, portrait: Portrait) -> str:
    return _("{problem}, {day}").format(
        problem=case_words(history, portrait.catalogue), day=day_and_year(history.case.on)
    )


def _open_case(values: tuple[Any, ...]) -> Save:
    case, stated, *more = values
    return lambda book: cases.open_case(book, case, stated, *more)


def _away(desk: Desk) -> Asked:
    form = AwayForm(desk.occasion, desk.portrait.absence)
    return Asked(form, lambda values: lambda book: cases.note_absence(book, values[0]))


def _never_away(desk: Desk) -> Asked:
    absence = desk.portrait.absence
    if absence is None:
        return _away(desk)
    since = _("Away since {day}: {why}").format(
        day=day_and_year(absence.on), why=absence_words(absence.reason, absence.until)
    )
    form = WithdrawForm([since], desk.portrait.athlete.name)
    return Asked(
        form, lambda values: lambda book: correcting.take_back_absence(book, absence, values[0])
    )


def _diagnosis(desk: Desk) -> Asked:
    history, portrait = desk.history, desk.portrait
    followed = portrait.protocol  # in the version it began with: nothing else moves it
    form = DiagnosisForm(
        desk.occasion,
        portrait.catalogue,
        {**portrait.protocols, **({followed.key: followed} if followed else {})},
        history.diagnosis,
        history.protocol.protocol if history.protocol else "",
    )

    def saving(values: tuple[Any, ...]) -> Save:
        protocol = form.chosen_protocol
        return lambda book: cases.diagnose(book, history, values[0], protocol)

    return Asked(form, saving)


def _move(desk: Desk) -> Asked:
    history, decision = desk.history, desk.portrait.decision
    if decision is None:
        return _diagnosis(desk)
    steps = desk.portrait.steps
    back = steps is not None and steps.back
    chosen = decision.stage - 1 if back else min(decision.stage + 1, decision.stages)
    form = MoveForm(desk.occasion, decision, desk.portrait.stage_names, chosen)
    return Asked(form, lambda values: lambda book: cases.move_stage(book, history, values[0]))


def _decide(desk: Desk) -> Asked:
    history = desk.history
    form = DecisionForm(desk.occasion, desk.portrait.squad.coming(3), history.decision)
    return Asked(
        form, lambda values: lambda book: cases.decide_return(book, history, values[0])
    )


def _clear(desk: Desk) -> Asked:
    history = desk.history
    portrait = desk.portrait
    form = ClearanceForm(desk.occasion, desk.me, portrait.decision, portrait.protocol)

    def saving(values: tuple[Any, ...]) -> Save:
        why = form.reason.words
        return lambda book: cases.clear(book, history, values[0], why=why)

    return Asked(form, saving)


def _close(desk: Desk) -> Asked:
    history = desk.history
    form = CloseForm(desk.occasion)

    def saving(values: tuple[Any, ...]) -> Save:
        (closed,), why = values, form.reason.words
        return lambda book: cases.close_case(book, history, closed.on, closed.outcome, why=why)

    return Asked(form, saving)


_FORMS: dict[Act, Callable[[Desk], Asked]] = {
    Act.TEST: _tonight,
    Act.SESSION: session,
    Act.NOTE: lambda desk: Asked(NoteForm(desk.occasion), _note),
    Act.AVAILABILITY: _availability,
    Act.INJURY: _injury,
    Act.ILLNESS: lambda desk: Asked(IllnessForm(desk.occasion), _open_case),
    Act.AWAY: _away,
    Act.NEVER_AWAY: _never_away,
    Act.CASE: _case,
    Act.EXAMINE: examination,
    Act.DIAGNOSIS: _diagnosis,
    Act.MOVE: _move,
    Act.DECIDE: _decide,
    Act.FLAG: raise_flag,
    Act.SIGNS: ask_for_signs,
    Act.CLEAR: _clear,
    Act.CLOSE: _close,
}
