"""Forms over a page, one at a time: opened, checked, saved through the session, closed."""

from dataclasses import is_dataclass
from functools import partial
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from teamrehab.desktop.athlete.desk import Asked, Desk
from teamrehab.desktop.athlete.portrait import Portrait
from teamrehab.desktop.entry.dialog import Check, FormDialog
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.session import About, Session
from teamrehab.desktop.trouble import is_known
from teamrehab.domain.plausibility import Implausible, check
from teamrehab.language import _
from teamrehab.tasks.cases import new_id


class Asking(QObject):
    """Opens forms over ``page``; ``dialog`` is the one that is open, None without one.

    ``offering`` carries what comes next after a save.
    """

    offering = Signal(object)

    def __init__(self, session: Session, page: QWidget) -> None:
        super().__init__(page)
        self._session, self._page = session, page
        self._asked: Asked | None = None
        self._case_id = self._said = ""
        self.dialog: FormDialog | None = None

    @property
    def has_unsaved(self) -> bool:
        """Return whether something is typed that is not in the casebook yet."""
        return self.dialog is not None and self.dialog.form.touched

    def ask(self, asked: Asked, desk: Desk) -> None:
        """Open a form about the athlete and the case of a desk."""
        self.open(
            asked,
            about=desk.portrait.athlete.name,
            case_id=desk.occasion.case_id,
            judge=partial(_check_at, desk),
        )

    def open(self, asked: Asked, *, about: str, case_id: str, judge: Check) -> None:
        """Open a form; what it saves is news of ``case_id`` ("" where that is not known)."""
        self._asked, self._case_id = asked, case_id
        title = asked.form.title
        self._said = _("{what}, {name}").format(what=title, name=about) if about else title
        self.dialog = FormDialog(
            asked.form,
            about=about,
            check=judge,
            beside=asked.beside,
            watched=asked.watched,
            parent=self._page,
        )
        self.dialog.asked.connect(self._save)
        self.dialog.finished.connect(self._closed)
        self.dialog.open()

    def _save(self, values: tuple[Any, ...]) -> None:
        if self._asked is not None:
            save = self._asked.saving(values)
            self._session.write(save, self._case_id, self._saved, self._failed, self._said)

    def _saved(self, _receipt: object) -> None:
        after = None if self._asked is None else self._asked.next
        if self.dialog is not None:
            self.dialog.saved()
        if after is not None:
            self.offering.emit(after)

    def _failed(self, error: Exception) -> None:
        if not is_known(error):
            self._session.failed.emit(error)
        if self.dialog is not None:
            known = str(error) if is_known(error) else _("Nothing was saved. Try again.")
            self.dialog.refuse(known)

    def _closed(self, _result: int) -> None:
        self.dialog, self._asked = None, None


def desk_for(portrait: Portrait, about: About) -> Desk:
    """Return the desk of who is signed in, now, with this portrait on it."""
    history = portrait.history
    occasion = Occasion(
        athlete=portrait.athlete,
        today=about.clock.today(),
        new_id=new_id,
        case_id=history.case.case_id if history else "",
        injured=portrait.injured,
        signer=about.me.name,
    )
    return Desk(portrait, occasion, about.me, about.clock.local())


def _check_at(desk: Desk, values: tuple[Any, ...]) -> tuple[Implausible, ...]:
    """Say what cannot stand; a new case has no history yet."""
    own = desk.occasion.case_id
    found: list[Implausible] = []
    for value in values:
        if is_dataclass(value):
            same = getattr(value, "case_id", "") == own
            history = desk.portrait.history if same else None
            found.extend(check(value, desk.occasion.today, history))
    return tuple(found)
