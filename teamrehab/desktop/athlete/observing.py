"""A session or a test of a case: saved like a row of the evening, after the four questions."""

from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from teamrehab.desktop.athlete.desk import Asked, Desk, Save
from teamrehab.desktop.athlete.entries import thing_of
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.safety_questions import Watched
from teamrehab.desktop.entry.session_form import SessionForm
from teamrehab.domain.history import History
from teamrehab.domain.measures import SessionEntry, SessionMissed
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.questions import questions_for
from teamrehab.tasks.evening import save_row


def observed(desk: Desk, form: Form, beside: QWidget | None = None) -> Asked:
    """Return what asks the four questions before a test is saved, corrected or not."""
    history = desk.history

    def saving(values: tuple[Any, ...]) -> Save:
        return lambda book: save_row(book, history, values, replaces=_seen(history, values))

    return Asked(form, saving, beside, watched=watched(desk))


def session(desk: Desk, correcting: SessionEntry | None = None) -> Asked:
    """Return the form of a session; a second one of the same day is a person's word."""
    history = desk.history
    others = {f.value.on for f in history.facts if isinstance(f.value, _EVENING)}
    form = SessionForm(desk.occasion, correcting, others)

    def saving(values: tuple[Any, ...]) -> Save:
        seen, again = _seen(history, values), form.is_second
        return lambda book: save_row(book, history, values, replaces=seen, again=again)

    return Asked(form, saving, watched=watched(desk))


_EVENING = SessionEntry | SessionMissed


def watched(desk: Desk) -> Watched:
    """Return what asks the four questions before values of the case on the desk are saved."""
    why = partial(_why, desk.history, desk.portrait.protocol)
    return Watched(desk.history.case, why)


def _why(
    history: History, protocol: Protocol | None, values: tuple[Any, ...]
) -> tuple[str, ...]:
    return questions_for(history, protocol, values, values[0].on)


def _seen(history: History, values: tuple[Any, ...]) -> tuple[str, ...] | None:
    """Return the versions that were on the desk of what is corrected; None for a first entry.

    Who wrote another one meanwhile is not overwritten unseen.
    """
    about = {thing_of(value) for value in values} - {""}
    return tuple(f.fact_id for f in history.facts if thing_of(f.value) in about) or None
